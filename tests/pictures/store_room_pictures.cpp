// Mixing, the Shelf with its forms, and labels.
#include "core/chemistry/bottle_labels.h"
#include "tests/pictures/photographer.h"
#include "ui/bench/form_panel.h"
#include "ui/bench/station_cautions.h"
#include "ui/common/record_dialog.h"
#include "ui/mixing/mixing_view.h"
#include "ui/mixing/weigh_page.h"
#include "ui/sheets/label_paint.h"
#include "ui/shelf/fill_steps.h"
#include "ui/shelf/formula_record.h"
#include "ui/shelf/shelf_view.h"

#include <QComboBox>
#include <QSpinBox>
#include <QToolButton>

namespace washfast::pictures {

void photographMixing(MainWindow& window, const Photographer& photographer)
{
    auto* mixing = show<ui::MixingView>(window, QStringLiteral("Mixing"));
    mixing->setFormula(QStringLiteral("iron_chloride"));
    mixing->showPage(ui::MixingView::Page::Weigh);
    photographer.take(QStringLiteral("mixing-plan"));
    mixing->showPage(ui::MixingView::Page::Make);
    photographer.take(QStringLiteral("mixing-steps"));
    mixing->showPage(ui::MixingView::Page::Check);
    photographer.take(QStringLiteral("mixing-check-plan"));
    mixing->showPage(ui::MixingView::Page::Weigh);
    const auto& lines = mixing->state().lines();
    for (int i = 0; i < int(lines.size()); ++i) // the last one, the hexacyanoferrate, in excess
        mixing->state().entered(lines[size_t(i)].component).grams
            = lines[size_t(i)].amount.rounded_g * (i + 1 == int(lines.size()) ? 2.2 : 1.01);
    mixing->weighPage()->refresh();
    Q_EMIT mixing->weighPage()->weighed();
    photographer.take(QStringLiteral("mixing-weighed"));
    mixing->showPage(ui::MixingView::Page::Check);
    photographer.take(QStringLiteral("mixing-audit"));
    for (const auto& line : lines)
        mixing->state().entered(line.component) = {};
    mixing->setFormula(QStringLiteral("traditional"));
    mixing->showPage(ui::MixingView::Page::Weigh);
    photographer.take(QStringLiteral("mixing-traditional"));
}

/// Records of the shelf with what belongs to them.
void photographShelf(MainWindow& window, ui::Desk& desk, const Photographer& photographer)
{
    auto* shelf = show<ui::ShelfView>(window, QStringLiteral("Shelf"));
    const std::pair<Entity, const char*> kinds[] = { { Entity::Card, "card" }, { Entity::Lamp, "lamp" },
        { Entity::Formula, "formula" }, { Entity::Negative, "film" } };
    for (const auto& [entity, name] : kinds) {
        const auto& table = desk.notebook().table(entity);
        shelf->choose(Ref { entity, table.id(table.rows() - 1) });
        photographer.take(QStringLiteral("shelf-%1").arg(QLatin1String(name)));
    }
    window.resize(1100, 720);
    photographer.take(QStringLiteral("shelf-film-small"));
    window.resize(1280, 820);
}

/// The forms of the shelf that are not drawn from the catalogue alone.
void photographShelfForms(const ui::Services& services, const QString& folder, const QString& look)
{
    const auto take = [&](QWidget& form, const char* name) {
        form.show();
        settle();
        form.grab().save(QDir(folder).filePath(QStringLiteral("%1-%2.png").arg(QLatin1String(name), look)));
    };
    const auto& notebook = services.desk.notebook();
    const auto last = [&](Entity entity) { return notebook.table(entity).id(notebook.table(entity).rows() - 1); };
    ui::FillStepsDialog fill(services, Entity::NegativeStep, last(Entity::Negative), nullptr);
    take(fill, "shelf-fill-steps");
    ui::StepsDialog steps(services, last(Entity::Formula), nullptr);
    take(steps, "shelf-formula-steps");
    ui::RecordDialog form(services, Entity::Formula, last(Entity::Formula), nullptr);
    ui::prepareFormulaForm(form, services.desk, last(Entity::Formula));
    take(form, "shelf-formula-form");
    // What to mind at a station, folded and unfolded.
    ui::FormPanel panel(services.desk, services.look.theme());
    panel.resize(380, 640);
    panel.show(Station::Expose, services.desk.printsOf(services.desk.session()).mid(0, 1), QStringLiteral("S8-01"));
    take(panel, "bench-cautions");
    panel.cautions()->why()->setChecked(true);
    take(panel, "bench-cautions-why");
}

/// Labels for bottles as they come out of the printer.
void photographLabels(const Notebook& notebook, const QString& folder)
{
    std::vector<ui::sheets::Label> labels;
    const auto& bottles = notebook.table(Entity::Chemical);
    for (int row = 0; row < bottles.rows(); ++row)
        labels.emplace_back(chemistry::labelOfChemical(notebook, bottles.id(row)));
    const auto& mixes = notebook.table(Entity::Mix);
    for (int row = mixes.rows() - 2; row < mixes.rows(); ++row)
        labels.emplace_back(chemistry::labelOfMix(notebook, mixes.id(row)));
    int number = 1;
    for (const auto& sheet : chemistry::labelSheets()) {
        const auto path = QDir(folder).filePath(QStringLiteral("label-chemical-%1.pdf").arg(number++));
        if (!ui::sheets::writeLabels(path, sheet, labels))
            std::fprintf(stderr, "not written: %s\n", qPrintable(path));
    }
}

} // namespace washfast::pictures
