#include "core/exchange/report_prints.h"

#include "core/exchange/export_parts.h"
#include "core/quantity/value_text.h"

#include <QLocale>
#include <algorithm>

namespace washfast::exchange {

namespace {

constexpr const char* makerKey = "print_maker";
constexpr const char* codeKey = "print_code";
/// What a table of prints shows, in the order of the work.
constexpr const char* mainKeys[] = { codeKey, makerKey, "mix_code", "paper_name", "coat_per_area_ml_m2",
    "moisture_at_expose_pct", "dose_j_cm2", "rinse_minutes", "formed", "net_density", "kept", "print_outcome" };

} // namespace

ReportPrints::ReportPrints(const ExportSelection& selection)
    : selection_(selection)
    , reader_(*selection.notebook)
{
}

ReportMark ReportPrints::mark(int print) const
{
    const auto failed = reader_.get(print, u"failed").yes();
    return !failed ? ReportMark::NotJudged : *failed ? ReportMark::Failed : ReportMark::Kept;
}

std::optional<double> ReportPrints::number(int print, const char* key) const
{
    return reader_.get(print, QString::fromLatin1(key)).number();
}

QString ReportPrints::code(int print) const
{
    return selection_.notebook->nameOf({ Entity::Print, selection_.notebook->prints().id(print) });
}

std::vector<int> ReportPrints::of(int session) const
{
    const auto& notebook = *selection_.notebook;
    const int link = notebook.catalogue().column(Entity::Print, u"print_session");
    std::vector<int> prints;
    for (const int print : selection_.prints)
        if (notebook.table(Entity::Session).find(notebook.prints().link(print, link)) == session)
            prints.push_back(print);
    return prints;
}

ReportPrints::Tally ReportPrints::tally(std::optional<int> session) const
{
    Tally tally;
    for (const int print : session ? of(*session) : selection_.prints) {
        ++tally.prints;
        tally.kept += mark(print) == ReportMark::Kept ? 1 : 0;
        tally.failed += mark(print) == ReportMark::Failed ? 1 : 0;
        if (const auto net = number(print, "net_density"))
            tally.net.push_back(*net);
        if (const auto share = number(print, "kept"))
            tally.share.push_back(*share);
    }
    return tally;
}

QString ReportPrints::cell(int print, const Field& field) const
{
    const auto known = named(*selection_.notebook, field, reader_.get(print, field.key));
    const auto text = displayText(field, known, QLocale::c());
    return text.isEmpty() ? notRecorded() : text;
}

std::vector<const Field*> ReportPrints::columns(bool makers) const
{
    std::vector<const Field*> shown;
    for (const auto& worth : worth()) {
        const bool maker = worth.field->key == QLatin1String(makerKey);
        if (worth.field->key == QLatin1String(codeKey) || (worth.known() > 0 && (makers || !maker)))
            shown.push_back(worth.field);
    }
    return shown;
}

std::vector<FieldWorth> ReportPrints::worth() const
{
    std::vector<FieldWorth> all;
    for (const char* key : mainKeys) {
        const auto* field = selection_.catalogue().findPrintField(QString::fromLatin1(key));
        if (!field)
            continue; // a catalogue without what works it out
        FieldWorth worth { field };
        for (const int print : selection_.prints) {
            const auto known = reader_.get(print, field->key);
            if (!known.has())
                continue;
            worth.measured += known.evidence == Evidence::Measured ? 1 : 0;
            worth.estimated += known.evidence == Evidence::Estimated ? 1 : 0;
            worth.assumed += known.evidence == Evidence::Assumed ? 1 : 0;
        }
        all.push_back(worth);
    }
    return all;
}

ReportTable ReportPrints::table(
    const QString& caption, const std::vector<int>& prints, const std::vector<const Field*>& columns) const
{
    ReportTable table;
    table.caption = caption;
    for (const auto* field : columns) {
        table.headings << field->labelWithUnit();
        table.figures.push_back(field->kind == Kind::Number);
    }
    for (const int print : prints) {
        auto& row = table.rows.emplace_back();
        for (const auto* field : columns)
            row << cell(print, *field);
    }
    return table;
}

QString reportTime(const std::optional<Instant>& time)
{
    return time ? time->toDateTime().toString(QStringLiteral("yyyy-MM-dd HH:mm")) : notRecorded();
}

std::optional<double> medianOf(std::vector<double> values)
{
    if (values.empty())
        return std::nullopt;
    std::sort(values.begin(), values.end());
    const size_t half = values.size() / 2;
    return values.size() % 2 == 1 ? values[half] : (values[half - 1] + values[half]) / 2.0;
}

QString reportNumber(const std::optional<double>& value, int decimals)
{
    return value ? QString::number(*value, 'f', decimals) : notRecorded();
}

QString notRecorded()
{
    return QStringLiteral("–");
}

} // namespace washfast::exchange
