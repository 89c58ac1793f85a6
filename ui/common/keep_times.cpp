#include "ui/common/keep_times.h"

#include "core/quantity/time_span.h"
#include "ui/common/words.h"

#include <algorithm>

namespace washfast::ui {

std::optional<QString> lateEnd(std::span<const Field> fields, const std::function<bool(const QString& key)>& entered,
    const std::function<Known(const QString& key)>& get)
{
    for (const auto& end : fields) {
        if (!end.began || !(entered(end.key) || entered(end.began->column)))
            continue;
        const auto start = std::find_if(
            fields.begin(), fields.end(), [&](const Field& field) { return field.key == end.began->column; });
        const auto from = get(end.began->column).time();
        const auto to = get(end.key).time();
        if (start != fields.end() && endsTooLate(end, from, to))
            return CommonWords::tr("“%1” is %2 after “%3”. Keep it?")
                .arg(end.label, spanText(minutesBetween(*from, *to)), start->label);
    }
    return std::nullopt;
}

bool keepsTimes(Dialogs& dialogs, QWidget* parent, const QString& question)
{
    constexpr int keep = 1;
    return dialogs.question(parent, CommonWords::tr("Check the times"), question,
               { CommonWords::tr("Correct it"), CommonWords::tr("Keep it") })
        == keep;
}

} // namespace washfast::ui
