#include "ui/common/print_tone.h"

namespace washfast::ui {

namespace {

ToneColour toneAt(const PrintReader& reader, int row, const QString& moment, bool washed)
{
    const auto number
        = [&](const QString& stem) { return reader.get(row, stem + moment + QStringLiteral("_deepest")).number(); };
    const auto l = number(QStringLiteral("lab_l_"));
    const auto a = number(QStringLiteral("lab_a_"));
    const auto b = number(QStringLiteral("lab_b_"));
    std::optional<LabD50> lab;
    if (l && a && b)
        lab = LabD50 { *l, *a, *b };
    return toneColour(lab, number(QStringLiteral("density_")), washed);
}

} // namespace

PrintTones tonesOf(const PrintReader& reader, int print_row)
{
    return { toneAt(reader, print_row, QStringLiteral("before_rinse"), false),
        toneAt(reader, print_row, QStringLiteral("day_after"), true) };
}

} // namespace washfast::ui
