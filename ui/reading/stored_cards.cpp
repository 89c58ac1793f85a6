#include "ui/reading/stored_cards.h"

#include <algorithm>
#include <cmath>

namespace washfast::ui {

namespace {

constexpr int most = 60; // of patch_position

QString tr(const char* text)
{
    return QCoreApplication::translate("Reading", text);
}

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

std::optional<density::ChannelDensities> measuredOf(const density::RegionReading& region)
{
    density::ChannelDensities all {};
    const density::ChannelReading* channels[] { &region.red, &region.green, &region.blue };
    for (size_t k = 0; k < 3; ++k) {
        if (!channels[k]->density || channels[k]->at_least)
            return {};
        all[k] = std::max(0.0, std::round(*channels[k]->density * 1000) / 1000);
    }
    return all;
}

double meanOf(const density::ChannelDensities& density)
{
    return (density[0] + density[1] + density[2]) / 3;
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
        if (at < 1 || at > most)
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

Result<NewCard> cardFrom(const MarkedPhoto& photo)
{
    const auto& references = photo.references;
    const bool assumed = references.evidence() == Evidence::Assumed;
    const bool absolute = photo.measured && !photo.measured->relative_to_paper;
    NewCard card { assumed ? QStringLiteral("assumed") : QStringLiteral("compared"), {} };
    std::optional<size_t> row;
    for (size_t i = 0; absolute && i < photo.spots.size() && i < photo.measured->regions.size(); ++i) {
        const auto& spot = photo.spots[i];
        if (spot.kind == Spot::Kind::Patch && !references.card && spot.of == row.value_or(spot.of)) {
            row = spot.of;
            card.patches.push_back(measuredOf(photo.measured->regions[i]));
        }
    }
    const auto nothing = [](const char* why) { return Error { Trouble::NotFound, tr(why), {} }; };
    if (!row) {
        for (const auto role : { MarkRole::White, MarkRole::Grey }) {
            const auto found = std::find_if(
                photo.marks.begin(), photo.marks.end(), [&](const PhotoMark& mark) { return mark.role == role; });
            if (found == photo.marks.end())
                return nothing(references.card
                        ? QT_TRANSLATE_NOOP("Reading",
                            "Mark a white and a grey patch beside the card; they are then kept as measured against it.")
                        : QT_TRANSLATE_NOOP("Reading", "Mark the white and the grey patch, or a row of patches."));
            if (references.card && !absolute)
                return nothing(QT_TRANSLATE_NOOP("Reading", "The patches have to be measured before they are kept."));
            if (references.card) {
                card.patches.push_back(measuredOf(photo.measured->regions[size_t(found - photo.marks.begin())]));
                continue;
            }
            density::ChannelDensities given {};
            given.fill(role == MarkRole::White ? references.white : references.grey);
            card.patches.push_back(given);
        }
        if (!references.card && !assumed)
            card.known_by.clear();
    }
    const auto first = card.patches.front(), last = card.patches.back();
    if (first && last && meanOf(*first) > meanOf(*last))
        std::reverse(card.patches.begin(), card.patches.end());
    if (std::count_if(card.patches.begin(), card.patches.end(), [](const auto& patch) { return patch.has_value(); })
        < 2)
        return nothing(QT_TRANSLATE_NOOP("Reading", "Fewer than two of the patches have a density."));
    return card;
}

bool keepCard(Desk& desk, const QString& name, const NewCard& card)
{
    const auto now = desk.now();
    return desk.perform(tr("Keep a card"), [&](store::Writer& writer) -> Outcome {
        const auto id = writer.add(Entity::Card, 0,
            { { QStringLiteral("card_name"), Known { Value(name) } },
                { QStringLiteral("card_known_by"), Known { Value(card.known_by) } },
                { QStringLiteral("card_known_on"), Known { Value(now) } } });
        if (!id)
            return id.error();
        const auto evidence = card.known_by == QLatin1String("assumed") ? Evidence::Assumed : Evidence::Measured;
        for (size_t i = 0; i < card.patches.size(); ++i) {
            std::vector<store::FieldValue> values { { QStringLiteral("patch_position"), knownNumber(double(i + 1)) } };
            if (const auto& density = card.patches[i]) {
                const auto [least, largest] = std::minmax_element(density->begin(), density->end());
                values.emplace_back(
                    QStringLiteral("patch_density"), knownNumber(std::round(meanOf(*density) * 1000) / 1000, evidence));
                const QString keys[] { QStringLiteral("patch_red"), QStringLiteral("patch_green"),
                    QStringLiteral("patch_blue") };
                for (size_t k = 0; k < 3 && *largest > *least; ++k)
                    values.emplace_back(keys[k], knownNumber((*density)[k], evidence));
            }
            if (const auto added = writer.add(Entity::CardPatch, *id, values); !added)
                return added.error();
        }
        return Done {};
    });
}

} // namespace washfast::ui
