#include "core/trial/filter.h"

#include "core/trial/words.h"

namespace washfast {

namespace {

struct Example {
    const char* filter;
    const char* means;
};
constexpr Example examples[] = {
    { "rain M7",
        QT_TRANSLATE_NOOP("Trial", "both words stand in the code, mix, paper, session, notes ... of the print") },
    { "\"ran off\"", QT_TRANSLATE_NOOP("Trial", "these words, one behind the other") },
    { "kept < 0.6", QT_TRANSLATE_NOOP("Trial", "a comparison: =  !=  <  <=  >  >=, decimal point or comma") },
    { "dose_j_cm2 from 2 to 5", QT_TRANSLATE_NOOP("Trial", "both ends included") },
    { "mix_code = M7", QT_TRANSLATE_NOOP("Trial", "texts and choices: = or !=, in capitals or not") },
    { "print_outcome has \"ran off\"", QT_TRANSLATE_NOOP("Trial", "a text or a choice contains it") },
    { "is_ran_off = yes", QT_TRANSLATE_NOOP("Trial", "yes or no") },
    { "coat_start > 2026-05-01",
        QT_TRANSLATE_NOOP("Trial", "after that day; also 2026-05-01 10:15, or 10:15 for any day") },
    { "kept is unknown", QT_TRANSLATE_NOOP("Trial", "was not recorded; also: is known") },
    { "kept < 0.6 and not (mix_code = M7 or paper_name has cotton)",
        QT_TRANSLATE_NOOP("Trial", "and, or, not, parentheses; side by side means and") },
};

} // namespace

QString filterHelp(const Catalogue& catalogue)
{
    QStringList lines;
    for (const auto& example : examples) {
        const auto text = QLatin1String(example.filter);
        if (parseFilter(text, catalogue).ok()) // a catalogue without the field gets no example of it
            lines << QStringLiteral("%1\n    %2").arg(text, TrialWords::tr(example.means));
    }
    lines << TrialWords::tr(
        "Fields go by their key or by the beginning of it, as long as it fits only one. Whatever holds blanks, or is a "
        "word of the "
        "filter itself, goes in quotation marks. A comparison with a value that was not recorded is neither true nor "
        "false, so that "
        "such a print is shown neither by “kept < 0.6” nor by “not kept < 0.6”.");
    return lines.join(QLatin1Char('\n'));
}

} // namespace washfast
