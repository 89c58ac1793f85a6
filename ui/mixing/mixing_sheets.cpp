// The papers that the Mixing view makes: labels, the risk sheet, the teaching sheet.
#include "core/chemistry/label.h"
#include "core/light/clear_sky.h"
#include "core/light/sun_day.h"
#include "core/light/uv_index.h"
#include "ui/mixing/check_page.h"
#include "ui/mixing/mixing_view.h"
#include "ui/sheets/documents.h"
#include "ui/sheets/label_paint.h"

#include <QFileInfo>
#include <QLocale>

namespace washfast::ui {

namespace {

/// Which sheet of labels, and where on it; nothing when the person turned back.
struct Place {
    chemistry::LabelSheet sheet;
    int first = 0;
};

std::optional<Place> askPlace(Dialogs& dialogs, QWidget* parent, const QString& title)
{
    QStringList names;
    for (const auto& sheet : chemistry::labelSheets())
        names << sheet.name;
    const auto which = dialogs.question(parent, title,
        MixingView::tr("What is it printed on? Print at full size, without fitting to the page."), names);
    if (!which)
        return std::nullopt;
    Place place { chemistry::labelSheets()[size_t(*which)], 0 };
    if (!place.sheet.cut_marks) {
        const auto first = dialogs.askText(parent, title,
            MixingView::tr("First free label of the sheet, 1 to %1, counted along the rows").arg(place.sheet.places()),
            QStringLiteral("1"));
        if (!first)
            return std::nullopt;
        place.first = qBound(1, first->toInt(), place.sheet.places()) - 1;
    }
    return place;
}

/// Under a clear sky at noon of the session's day at its site; nothing where one of them is not known.
std::optional<double> highestUvIndex(const Notebook& notebook, SessionId session)
{
    const auto start = notebook.get(session, u"session_start").time();
    const auto site = notebook.get(session, u"session_site").link();
    if (!start || !site)
        return std::nullopt;
    const Ref ref { Entity::Site, *site };
    const auto latitude = notebook.get(ref, u"site_latitude_deg").number();
    const auto longitude = notebook.get(ref, u"site_longitude_deg").number();
    const auto zone = light::zoneNamed(notebook.get(ref, u"site_zone").text().value_or(QString()));
    if (!latitude || !longitude || !zone)
        return std::nullopt;
    const auto day = light::sunDay(start->toDateTime().date(), *zone,
        { *latitude, *longitude, notebook.get(ref, u"site_height_m").number().value_or(0) });
    return light::uvIndex(day.noon_zenith_deg, light::Atmosphere {}.ozone_du);
}

} // namespace

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
    const auto title = tr("Label for the bottle");
    const bool kept = kept_ != 0 && state_.weighed() == 0 && desk.notebook().table(Entity::Mix).find(kept_) >= 0;
    const auto audit = kept ? chemistry::audit(chemistry::batchOf(desk.notebook(), kept_)) : state_.audited();
    const auto code = kept ? desk.notebook().nameOf({ Entity::Mix, kept_ }) : check_->code();
    auto label = chemistry::bottleLabel(tr("Mix %1").arg(code), audit.substances());
    for (const auto& part : audit.parts)
        label.contents << part.name;
    label.contents = { label.contents.join(QStringLiteral(", ")) };
    if (audit.iron_mol_l && audit.hexacyanoferrate_mol_l)
        label.contents << tr("iron %1 mol/L, hexacyanoferrate %2 mol/L")
                              .arg(QLocale().toString(*audit.iron_mol_l, 'f', 3),
                                  QLocale().toString(*audit.hexacyanoferrate_mol_l, 'f', 3));
    label.made = desk.now().toDateTime().date().toString(Qt::ISODate);
    if (audit.carbon_dioxide_l && *audit.carbon_dioxide_l > 0)
        label.note = tr("Vented cap. Not tight while it fizzes.");
    const auto place = askPlace(dialogs, this, title);
    if (!place)
        return;
    bool written = false;
    savePdf(title, tr("label-%1").arg(code), [&](const QString& path) {
        auto done = sheets::writeLabels(path, place->sheet, { label }, place->first);
        written = bool(done);
        return done;
    });
    if (written && kept)
        (void)desk.perform(tr("Label of %1").arg(code), [&](store::Writer& writer) {
            return writer.set({ Entity::Mix, kept_ }, QStringLiteral("mix_labelled"), Known { true });
        });
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
    const auto place = askPlace(dialogs, this, title);
    if (!place)
        return;
    savePdf(title, tr("labels-%1").arg(session),
        [&](const QString& path) { return sheets::writeLabels(path, place->sheet, labels, place->first); });
}

void MixingView::saveRiskSheet()
{
    auto substances = chemistry::substancesOfSession(desk.notebook(), desk.session().value);
    if (substances.isEmpty())
        substances = state_.substances();
    const auto& notebook = desk.notebook();
    auto sheet = chemistry::riskSheet(substances, highestUvIndex(notebook, desk.session()));
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
