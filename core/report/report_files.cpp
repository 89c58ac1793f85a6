#include "core/report/report_files.h"

#include "core/exchange/export_parts.h"
#include "core/exchange/report_html.h"
#include "core/report/report_pdf.h"
#include "core/report/words.h"

#include <QFileInfo>

namespace washfast::report {

namespace {

QString endingOf(const QString& path)
{
    return QFileInfo(path).suffix().toLower();
}

} // namespace

bool isReport(const QString& path)
{
    return endingOf(path) == QLatin1String("html") || endingOf(path) == QLatin1String("pdf");
}

Result<std::vector<files::FileToWrite>> makeTerm(const exchange::ExportSelection& selection, const QString& path,
    const exchange::ReportOptions& contents, const std::function<bool(double)>& keep_going)
{
    if (!isReport(path)) {
        const QStringList tables { QStringLiteral("xlsx"), QStringLiteral("csv"), QStringLiteral("json") };
        if (!tables.contains(endingOf(path)))
            return Error { Trouble::BadInput,
                Words::tr("A file must end in .xlsx, .csv, .json, .html or .pdf, so that it is clear what is wanted."),
                path };
        return exchange::makeExport(selection, path);
    }
    const auto report = exchange::makeReport(selection, contents);
    const auto bytes = endingOf(path) == QLatin1String("pdf") ? reportPdf(report, keep_going)
                                                              : Result<QByteArray>(exchange::reportHtml(report));
    if (!bytes)
        return bytes.error();
    if (keep_going && !keep_going(1.0))
        return stopped();
    return std::vector<files::FileToWrite> { { path, *bytes } };
}

Result<exchange::ExportDone> exportTerm(const exchange::ExportSelection& selection, const QString& path,
    const exchange::ReportOptions& contents, const std::function<bool(double)>& keep_going, files::Existing existing)
{
    const auto made = makeTerm(selection, path, contents, keep_going);
    if (!made)
        return made.error();
    return exchange::writeExport(selection, *made, existing);
}

} // namespace washfast::report
