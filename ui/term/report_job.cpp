#include "ui/term/report_job.h"

#include "core/report/report_answers.h"
#include "core/report/report_files.h"
#include "core/report/report_pdf.h"
#include "core/store/notebook_file.h"

namespace washfast::ui {

namespace {
constexpr double answersShare = 0.6; // of the bar; the rest is the layout
}

Result<exchange::ExportDone> makeTermReport(
    const Catalogue& catalogue, const ReportWanted& wanted, const std::function<bool(double)>& keep_going)
{
    store::OpenOptions how;
    how.create = false;
    const auto file = store::NotebookFile::open(wanted.notebook, catalogue, how);
    if (!file)
        return file.error();
    const auto notebook = (*file)->read();
    if (!notebook)
        return notebook.error();
    const auto selection = exchange::selectForExport(*notebook, wanted.term);
    if (!selection)
        return selection.error();
    if (!keep_going(0))
        return report::stopped();
    exchange::ReportOptions contents;
    contents.written = wanted.written;
    {
        const PrintColumns columns(*notebook);
        bool going = true;
        contents.answers = report::answersTo(report::questionsFor(columns, *selection),
            [&](double share) { return going = going && keep_going(answersShare * share); });
        if (!going)
            return report::stopped();
    }
    return report::exportTerm(*selection, wanted.path, contents,
        [&](double share) { return keep_going(answersShare + (1 - answersShare) * share); });
}

} // namespace washfast::ui
