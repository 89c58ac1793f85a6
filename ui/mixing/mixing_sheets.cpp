// The papers that the Mixing view makes: labels, the risk sheet, the teaching sheet.
#include "core/chemistry/bottle_labels.h"
#include "core/light/session_uv.h"
#include "ui/mixing/check_page.h"
#include "ui/mixing/mixing_view.h"
#include "ui/sheets/documents.h"
#include "ui/sheets/label_ask.h"

#include <QFileInfo>
#include <QLocale>

namespace washfast::ui {

void MixingView::savePdf(const QString& title, const QString& name, const std::function<Outcome(const QString&)>& write)
{
    const auto path = dialogs.saveFile(this, title, name + QStringLiteral(".pdf"), { tr("PDF (*.pdf)") });
    if (!path)
        return;
    if (const auto written = write(*path); !written) {
        dialogs.error(this, title, written.error().says, written.error().where);
        return;
    }
    Q_EMIT say(tr("Saved: %1").arg(QFileInfo(*path).fileName()));
}

void MixingView::saveBottleLabel()
{
    const bool kept = kept_ != 0 && state_.weighed() == 0 && desk.notebook().table(Entity::Mix).find(kept_) >= 0;
    const auto code = kept ? desk.notebook().nameOf({ Entity::Mix, kept_ }) : check_->code();
    const auto today = desk.now().toDateTime().date().toString(Qt::ISODate);
    const auto label
        = kept ? chemistry::labelOfMix(desk.notebook(), kept_) : chemistry::labelOfBatch(code, state_.audited(), today);
    const auto written
        = sheets::saveLabels(dialogs, this, tr("Label for the bottle"), tr("label-%1").arg(code), { label });
    if (!written)
        return;
    if (kept)
        (void)desk.perform(tr("Label of %1").arg(code), [&](store::Writer& writer) {
            return writer.set({ Entity::Mix, kept_ }, QStringLiteral("mix_labelled"), Known { true });
        });
    Q_EMIT say(tr("Saved: %1").arg(*written));
}

void MixingView::savePrintLabels()
{
    const auto title = tr("Labels for the session's prints");
    const auto session = desk.notebook().nameOf(desk.session());
    std::vector<sheets::Label> labels;
    for (const auto print : desk.printsOf(desk.session())) {
        chemistry::PrintLabel label { desk.notebook().nameOf({ Entity::Print, print }), session };
        if (!label.code.isEmpty())
            labels.emplace_back(label);
    }
    if (labels.empty()) {
        dialogs.message(this, title, tr("The running session has no prints with a code yet; the Bench makes them."));
        return;
    }
    if (const auto written = sheets::saveLabels(dialogs, this, title, tr("labels-%1").arg(session), labels))
        Q_EMIT say(tr("Saved: %1").arg(*written));
}

void MixingView::saveRiskSheet()
{
    auto substances = chemistry::substancesOfSession(desk.notebook(), desk.session().value);
    if (substances.isEmpty())
        substances = state_.substances();
    const auto& notebook = desk.notebook();
    auto sheet = chemistry::riskSheet(substances, light::highestUvIndex(notebook, desk.session()));
    sheet.session = notebook.nameOf(desk.session());
    if (const auto start = notebook.get(desk.session(), u"session_start").time())
        sheet.when = start->toDateTime().date().toString(Qt::ISODate);
    sheet.group = notebook.get(desk.session(), u"session_group").text().value_or(QString());
    savePdf(tr("Risk sheet of the session"), tr("risk-sheet-%1").arg(sheet.session), [&](const QString& path) {
        return sheets::writePdf(path, tr("Risk sheet"), sheets::riskPages, sheets::riskPainter(sheet));
    });
}

void MixingView::saveTeachingSheet()
{
    const auto title = tr("Teaching sheet of the mix");
    const auto& notebook = desk.notebook();
    // What was just weighed, else the mix of the running session, else the plan.
    const auto of_session = chemistry::mixOfSession(notebook, desk.session().value);
    const bool recorded = state_.weighed() == 0 && of_session != 0;
    const auto audit = recorded ? chemistry::audit(chemistry::batchOf(notebook, of_session)) : state_.audited();
    const auto name = recorded ? notebook.nameOf({ Entity::Mix, of_session }) : check_->code();
    const auto sheet = chemistry::teachingSheet(
        name, audit, state_.order.coat_ml_m2, { state_.order.width_mm, state_.order.height_mm });
    if (!sheet) {
        dialogs.message(this, title, sheet.error().sentence());
        return;
    }
    savePdf(title, tr("teaching-sheet-%1").arg(name), [&](const QString& path) {
        return sheets::writePdf(path, sheet->title, sheets::teachingPages, sheets::teachingPainter(*sheet));
    });
}

} // namespace washfast::ui
