#include "ui/reading/stored_cards.h"

#include <algorithm>
#include <cmath>

namespace washfast::ui {

namespace {

constexpr int mostPatches = 60; // of patch_position

std::optional<density::ChannelDensities> densityOf(const Notebook& notebook, Ref patch)
{
    const auto neutral = notebook.get(patch, u"patch_density").number();
    density::ChannelDensities all {};
    const QStringView keys[] { u"patch_red", u"patch_green", u"patch_blue" };
    for (size_t k = 0; k < 3; ++k) {
        const auto own = notebook.get(patch, keys[k]).number();
        if (!own && !neutral)
            return {};
        all[k] = own ? *own : *neutral;
    }
    return all;
}

} // namespace

Evidence StoredCard::evidence() const
{
    return known_by.isEmpty() || known_by == QLatin1String("assumed") ? Evidence::Assumed : Evidence::Measured;
}

int StoredCard::known() const
{
    return int(std::count_if(patches.begin(), patches.end(), [](const auto& patch) { return patch.has_value(); }));
}

std::optional<StoredCard> cardOf(const Notebook& notebook, qint64 id)
{
    if (notebook.table(Entity::Card).find(id) < 0)
        return {};
    const Ref ref { Entity::Card, id };
    StoredCard card { id, notebook.nameOf(ref), notebook.get(ref, u"card_known_by").text().value_or(QString()),
        notebook.get(ref, u"card_retired").yes().value_or(false), {} };
    const auto& table = notebook.table(Entity::CardPatch);
    int next = 1;
    for (const int row : notebook.children(Entity::CardPatch, id)) {
        const Ref patch { Entity::CardPatch, table.id(row) };
        const auto position = notebook.get(patch, u"patch_position").number();
        const int at = position ? int(std::lround(*position)) : next;
        if (at < 1 || at > mostPatches)
            continue;
        next = at + 1;
        card.patches.resize(std::max(card.patches.size(), size_t(at)));
        if (auto& place = card.patches[size_t(at - 1)]; !place)
            place = densityOf(notebook, patch);
    }
    return card;
}

std::vector<StoredCard> cardsOf(const Notebook& notebook, qint64 also)
{
    std::vector<StoredCard> cards;
    const auto& table = notebook.table(Entity::Card);
    for (int row = 0; row < table.rows(); ++row)
        if (auto card = cardOf(notebook, table.id(row)); card && (!card->retired || card->id == also))
            cards.push_back(std::move(*card));
    std::sort(cards.begin(), cards.end(),
        [](const StoredCard& a, const StoredCard& b) { return QString::localeAwareCompare(a.name, b.name) < 0; });
    return cards;
}

References against(const StoredCard& card, References references)
{
    references.card = card.id;
    references.card_name = card.name;
    references.patches = card.patches;
    references.card_evidence = card.evidence();
    return references;
}

} // namespace washfast::ui
