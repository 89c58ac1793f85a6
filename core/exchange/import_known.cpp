#include "core/exchange/import_known.h"

#include "core/exchange/words.h"
#include "core/quantity/value_text.h"

#include <QCryptographicHash>
#include <algorithm>
#include <cmath>

namespace washfast::exchange {

namespace {

bool sameValue(const Field& field, const Value& a, const Value& b)
{
    const auto* x = std::get_if<double>(&a);
    const auto* y = std::get_if<double>(&b);
    if (x && y)
        return std::abs(*x - *y) <= 1e-9 * std::max(std::abs(*x), std::abs(*y));
    const auto* s = std::get_if<QString>(&a);
    const auto* t = std::get_if<QString>(&b);
    if (s && t && field.identity)
        return foldedName(*s) == foldedName(*t);
    return a == b;
}

} // namespace

KnownPrints::KnownPrints(const Notebook& notebook)
    : catalogue_(&notebook.catalogue())
    , reader_(notebook)
{
    const auto& prints = notebook.prints();
    const int code = catalogue_->identity(Entity::Print)->ordinal;
    const int mark = catalogue_->column(Entity::Print, u"print_import_mark");
    for (int row = 0; row < prints.rows(); ++row) {
        if (const auto text = prints.at(row, code).text())
            by_code_.insert(foldedName(*text), row);
        if (const auto text = mark < 0 ? std::nullopt : prints.at(row, mark).text())
            marks_.insert(*text);
    }
}

std::optional<int> KnownPrints::byCode(const QString& code) const
{
    const auto found = by_code_.constFind(foldedName(code));
    return found == by_code_.constEnd() ? std::nullopt : std::optional(*found);
}

QString KnownPrints::markOf(const RowValues& values) const
{
    QStringList lines;
    for (const auto& [index, known] : values)
        lines << field(index).key + QLatin1Char('=') + isoText(field(index), known.value) + QLatin1Char('\t')
                + evidenceKey(known.evidence);
    lines.sort();
    const auto digest = QCryptographicHash::hash(lines.join(QLatin1Char('\n')).toUtf8(), QCryptographicHash::Sha256);
    return QString::fromLatin1(digest.toHex().left(32));
}

std::optional<KnownPrints::Difference> KnownPrints::difference(
    int print_row, const QString& code, const RowValues& values, const Comparing& how) const
{
    for (const auto& [index, known] : values) {
        const auto& f = field(index);
        const auto held = reader_.get(print_row, index);
        if (how.session_day && f.key == QLatin1String("session_start") && held.time()
            && held.time()->toDateTime().date() == how.session_day)
            continue;
        const QString here = isoText(f, known.value);
        if (!held.has())
            return Difference { index,
                Words::tr("The print %1 is in the notebook without it; here it is %2.").arg(code, here) };
        if (!sameValue(f, held.value, known.value))
            return Difference { index,
                Words::tr("The print %1 is in the notebook with %2; here it is %3.")
                    .arg(code, isoText(f, held.value), here) };
        const bool says_how = f.kind != Kind::Text && (how.evidence_given || known.evidence != f.nature);
        if (says_how && held.evidence != known.evidence)
            return Difference { index,
                Words::tr("The print %1 is in the notebook with this as %2; here it is %3.")
                    .arg(code, evidenceLabel(held.evidence), evidenceLabel(known.evidence)) };
    }
    return std::nullopt;
}

} // namespace washfast::exchange
