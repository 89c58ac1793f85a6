#include "core/chemistry/label.h"

#include "core/chemistry/substance.h"
#include "core/chemistry/words.h"

#include <algorithm>

namespace washfast::chemistry {

namespace {

QString payloadMark()
{
    return QStringLiteral("washfast:");
}

LabelSheet sheet(const char* key, const char* name, double width, double height, int columns, int rows, double gap)
{
    LabelSheet made;
    made.key = QString::fromLatin1(key);
    made.name = Words::tr(name);
    made.width_mm = width;
    made.height_mm = height;
    made.columns = columns;
    made.rows = rows;
    made.across_mm = width + gap;
    made.down_mm = height;
    made.left_mm = (pageWidthMm - columns * width - (columns - 1) * gap) / 2;
    made.top_mm = (pageHeightMm - rows * height) / 2;
    return made;
}

} // namespace

BottleLabel bottleLabel(const QString& title, const QStringList& substances)
{
    BottleLabel label;
    label.title = title;
    QStringList all, agreed;
    for (const auto& key : substances) {
        const auto* hazards = hazardsOf(key);
        if (!hazards)
            continue;
        all << hazards->all();
        agreed << hazards->agreed();
        const auto signal = hazards->signal();
        if (label.signal.isEmpty() || signal == QLatin1String("Danger"))
            label.signal = signal.isEmpty() ? label.signal : signal;
    }
    all.removeDuplicates();
    all.sort();
    for (const auto& code : all)
        label.hazards.push_back({ code, statementText(code), !agreed.contains(code) });
    label.pictograms = pictogramsFor(all);
    for (const auto& code : precautionsFor(all))
        label.precautions << code + QLatin1Char(' ') + statementText(code);
    const bool disputed = std::any_of(
        label.hazards.begin(), label.hazards.end(), [](const LabelStatement& statement) { return statement.disputed; });
    QStringList footing;
    if (substances.size() > 1)
        footing << Words::tr("Hazards of the undiluted substances.");
    if (disputed)
        footing << Words::tr("A star marks what only some suppliers state.");
    footing << deferral();
    label.footing = footing.join(QLatin1Char(' '));
    return label;
}

QString PrintLabel::payload() const
{
    return payloadMark() + code;
}

std::optional<QString> codeFromPayload(const QString& payload)
{
    if (!payload.startsWith(payloadMark()))
        return std::nullopt;
    const auto code = payload.mid(payloadMark().size()).trimmed();
    return code.isEmpty() ? std::nullopt : std::optional(code);
}

const std::vector<LabelSheet>& labelSheets()
{
    static const std::vector<LabelSheet> all = [] {
        std::vector<LabelSheet> sheets {
            sheet("plain", QT_TRANSLATE_NOOP("Chemistry", "plain paper with cut marks, 90 x 54 mm"), 90, 54, 2, 5, 0),
            sheet("70x37", QT_TRANSLATE_NOOP("Chemistry", "label sheet 70 x 37 mm, 24 on A4"), 70, 37, 3, 8, 0),
            sheet("63.5x38.1", QT_TRANSLATE_NOOP("Chemistry", "label sheet 63.5 x 38.1 mm, 21 on A4"), 63.5, 38.1, 3, 7,
                2.5),
        };
        sheets.front().cut_marks = true;
        return sheets;
    }();
    return all;
}

const LabelSheet& labelSheet(const QString& key)
{
    const auto& all = labelSheets();
    const auto found
        = std::find_if(all.begin(), all.end(), [&](const LabelSheet& candidate) { return candidate.key == key; });
    return found == all.end() ? all.front() : *found;
}

} // namespace washfast::chemistry
