#include "ui/reading/new_card.h"

#include "ui/reading/words.h"

#include <algorithm>
#include <cmath>

namespace washfast::ui {

namespace {

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
    const auto nothing = [](const char* why) { return Error { Trouble::NotFound, ReadingWords::tr(why), {} }; };
    if (!row) {
        for (const auto role : { MarkRole::White, MarkRole::Grey }) {
            const auto found = std::find_if(
                photo.marks.begin(), photo.marks.end(), [&](const PhotoMark& mark) { return mark.role == role; });
            if (found == photo.marks.end())
                return nothing(references.card
                        ? QT_TRANSLATE_NOOP("ReadingView",
                            "Mark a white and a grey patch beside the card; they are then kept as measured against it.")
                        : QT_TRANSLATE_NOOP("ReadingView", "Mark the white and the grey patch, or a row of patches."));
            if (references.card && !absolute)
                return nothing(
                    QT_TRANSLATE_NOOP("ReadingView", "The patches have to be measured before they are kept."));
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
        return nothing(QT_TRANSLATE_NOOP("ReadingView", "Fewer than two of the patches have a density."));
    return card;
}

bool keepCard(Desk& desk, const QString& name, const NewCard& card)
{
    const auto now = desk.now();
    return desk.perform(ReadingWords::tr("Keep a card"), [&](store::Writer& writer) -> Outcome {
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
