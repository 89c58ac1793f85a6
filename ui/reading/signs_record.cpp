#include "ui/reading/signs_record.h"

#include "ui/reading/signs_words.h"
#include "ui/reading/words.h"

#include <cmath>

namespace washfast::ui {

namespace {

constexpr double sameSpacing = 0.2, sameDirection = 15; // share, degrees

bool sameStripes(const Notebook& notebook, Ref row, const density::ProposedSign& sign)
{
    const auto spacing = notebook.get(row, u"sign_spacing_mm").number();
    const auto direction = notebook.get(row, u"sign_direction_deg").number();
    if (spacing && sign.spacing_mm && std::abs(*spacing - *sign.spacing_mm) > sameSpacing * *sign.spacing_mm)
        return false;
    return !direction || !sign.direction_deg
        || std::abs(std::remainder(*direction - *sign.direction_deg, 180)) <= sameDirection;
}

} // namespace

Judged judgedBefore(const Notebook& notebook, qint64 print, qint64 photo, const density::Proposal& sign)
{
    Judged out;
    const auto& table = notebook.table(Entity::Sign);
    for (const int at : notebook.children(Entity::Sign, print)) {
        const Ref row { Entity::Sign, table.id(at) };
        const auto link = notebook.get(row, u"sign_photo").link();
        if (link != photo || notebook.get(row, u"sign_kind").text() != signKey(sign.sign.kind)
            || (sign.sign.kind == density::SignKind::Stripes && !sameStripes(notebook, row, sign.sign)))
            continue;
        const auto found = notebook.get(row, u"sign_found").text();
        if (found == QLatin1String("accepted") || found == QLatin1String("rejected"))
            out = { row.id, found == QLatin1String("accepted") ? Verdict::Accepted : Verdict::Rejected };
    }
    return out;
}

bool judge(Desk& desk, qint64 print, qint64 photo, const QString& stage, const density::Proposal& sign, bool accept)
{
    const auto word = signWord(sign.sign.kind).toLower();
    std::vector<store::FieldValue> values {
        { QStringLiteral("sign_found"), Known { accept ? QStringLiteral("accepted") : QStringLiteral("rejected") } },
        { QStringLiteral("sign_measure"), Known { sign.sign.strength } },
    };
    if (sign.sign.spacing_mm)
        values.emplace_back(QStringLiteral("sign_spacing_mm"), Known { *sign.sign.spacing_mm });
    if (sign.sign.direction_deg)
        values.emplace_back(QStringLiteral("sign_direction_deg"), Known { *sign.sign.direction_deg });
    const auto there = judgedBefore(desk.notebook(), print, photo, sign);
    return desk.perform(
        accept ? ReadingWords::tr("Accept sign: %1").arg(word) : ReadingWords::tr("Reject sign: %1").arg(word),
        [&](store::Writer& writer) -> Outcome {
            if (there.row != 0) {
                for (const auto& [key, value] : values)
                    if (auto set = writer.set({ Entity::Sign, there.row }, key, value); !set)
                        return set;
                return Done {};
            }
            auto all = values;
            all.emplace_back(QStringLiteral("sign_kind"), Known { signKey(sign.sign.kind) });
            all.emplace_back(QStringLiteral("sign_photo"), Known { Link { photo } });
            if (const auto station = stationOf(sign.sign.kind, stage); !station.isEmpty())
                all.emplace_back(QStringLiteral("sign_station"), Known { station });
            if (sign.brush == density::BrushWay::Along)
                all.emplace_back(QStringLiteral("sign_notes"), Known { ReadingWords::tr("Along the brush strokes.") });
            if (sign.brush == density::BrushWay::Across)
                all.emplace_back(QStringLiteral("sign_notes"), Known { ReadingWords::tr("Across the brush strokes.") });
            const auto added = writer.add(Entity::Sign, print, all);
            return added ? Outcome(Done {}) : Outcome(added.error());
        });
}

QString verdictWords(Verdict verdict)
{
    switch (verdict) {
    case Verdict::Accepted:
        return ReadingWords::tr("accepted, on record");
    case Verdict::Rejected:
        return ReadingWords::tr("rejected, on record: counts as no sign");
    case Verdict::None:
        return ReadingWords::tr("not decided");
    }
    return {};
}

} // namespace washfast::ui
