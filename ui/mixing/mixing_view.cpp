#include "ui/mixing/mixing_view.h"

#include "ui/mixing/check_page.h"
#include "ui/mixing/make_page.h"
#include "ui/mixing/weigh_page.h"

#include <QComboBox>
#include <QDoubleSpinBox>
#include <QHBoxLayout>
#include <QLabel>
#include <QLocale>
#include <QMenu>
#include <QPushButton>
#include <QSpinBox>
#include <QTabWidget>
#include <QVBoxLayout>

namespace washfast::ui {

namespace {
constexpr double balances[] = { 0.001, 0.01, 0.1, 1 }; // g
}

MixingView::MixingView(const Services& services, QWidget* parent)
    : View(services, parent)
{
    auto* column = new QVBoxLayout(this);
    state_.read(desk.notebook());
    buildBar(*column);
    tabs_ = new QTabWidget(this);
    tabs_->setDocumentMode(true);
    weigh_ = new mixing::WeighPage(state_, desk, look.theme(), tabs_);
    make_ = new mixing::MakePage(state_, desk, look.theme(), tabs_);
    check_ = new mixing::CheckPage(state_, desk, look.theme(), tabs_);
    tabs_->addTab(weigh_, tr("&1 Weigh"));
    tabs_->addTab(make_, tr("&2 Make"));
    tabs_->addTab(check_, tr("&3 Check and keep"));
    tabs_->setAccessibleName(tr("Weighing, making, checking"));
    column->addWidget(tabs_, 1);
    connect(weigh_, &mixing::WeighPage::swapped, this, &MixingView::workAgain);
    connect(weigh_, &mixing::WeighPage::weighed, this, &MixingView::refresh);
    connect(check_, &mixing::CheckPage::changed, this, &MixingView::refresh);
    connect(check_, &mixing::CheckPage::keep, this, &MixingView::keepMix);
    connect(make_, &mixing::MakePage::say, this, &View::say);
    connect(&desk, &Desk::changed, this, &MixingView::readAgain);
    connect(&desk, &Desk::reloaded, this, &MixingView::readAgain);
    connect(&desk, &Desk::sessionChanged, this, [this] { check_->refresh(); });
    connect(&look, &ThemeSource::changed, weigh_, &mixing::WeighPage::setTheme);
    connect(&look, &ThemeSource::changed, make_, &mixing::MakePage::setTheme);
    connect(&look, &ThemeSource::changed, check_, &mixing::CheckPage::setTheme);
    readAgain();
    takeOrder();
}

MixingView::~MixingView()
{
    for (auto* page : { static_cast<QWidget*>(weigh_), static_cast<QWidget*>(make_), static_cast<QWidget*>(check_) })
        page->disconnect(this);
    delete tabs_; // the pages look at the state, which is a member and would go before them
}

void MixingView::buildBar(QVBoxLayout& column)
{
    auto* first = new QHBoxLayout;
    column.addLayout(first);
    const auto labelled = [&](QHBoxLayout& row, const QString& text, QWidget* widget, const QString& name) {
        auto* label = new QLabel(text, this);
        label->setBuddy(widget);
        widget->setAccessibleName(name);
        row.addWidget(label);
        row.addWidget(widget);
    };
    formula_ = new QComboBox(this);
    formula_->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
    formula_->setMinimumContentsLength(24);
    labelled(*first, tr("Fo&rmula"), formula_, tr("Formula"));
    first->setStretch(1, 1);
    auto* sheets = new QPushButton(tr("&Labels and sheets"), this);
    buildSheetsMenu(*sheets);
    first->addWidget(sheets);
    about_ = new QLabel(this);
    about_->setWordWrap(true);
    about_->setFont(textFont(font(), TextSize::Small));
    about_->setTextInteractionFlags(Qt::TextSelectableByMouse);
    about_->setAccessibleName(tr("Source of the formula"));
    column.addWidget(about_);

    auto* second = new QHBoxLayout;
    column.addLayout(second);
    const auto spin = [this](int low, int high, int value, const QString& suffix) {
        auto* box = new QSpinBox(this);
        box->setRange(low, high);
        box->setValue(value);
        box->setSuffix(suffix);
        connect(box, &QSpinBox::valueChanged, this, &MixingView::takeOrder);
        return box;
    };
    sheets_ = spin(1, 10000, state_.order.sheets, {});
    labelled(*second, tr("&Sheets"), sheets_, tr("Sheets"));
    width_ = spin(1, 5000, int(state_.order.width_mm), {});
    labelled(*second, tr("of"), width_, tr("Width of the coated area, mm"));
    height_ = spin(1, 5000, int(state_.order.height_mm), tr(" mm"));
    labelled(*second, QStringLiteral("×"), height_, tr("Height of the coated area, mm"));
    coat_ = new QDoubleSpinBox(this);
    coat_->setRange(1, 1000);
    coat_->setDecimals(1);
    coat_->setValue(state_.order.coat_ml_m2);
    coat_->setSuffix(tr(" mL/m²"));
    connect(coat_, &QDoubleSpinBox::valueChanged, this, &MixingView::takeOrder);
    labelled(*second, tr("Co&at"), coat_, tr("Coat per area"));
    spare_ = spin(0, 1000, int(state_.order.spare_pct), tr(" %"));
    labelled(*second, tr("S&pare"), spare_, tr("Spare"));
    balance_ = new QComboBox(this);
    for (const double step : balances)
        balance_->addItem(tr("%1 g").arg(QLocale().toString(step)), step);
    balance_->setCurrentIndex(1);
    connect(balance_, &QComboBox::currentIndexChanged, this, &MixingView::takeOrder);
    labelled(*second, tr("&Balance"), balance_, tr("Smallest step of the balance"));
    second->addStretch(1);
    sum_ = new QLabel(this);
    sum_->setWordWrap(true);
    sum_->setAccessibleName(tr("Volume of the mix"));
    column.addWidget(sum_);
    connect(formula_, &QComboBox::activated, this, [this](int at) {
        if (const auto usable = int(state_.formulas().size()); at >= usable) {
            const auto& own = state_.unusable()[size_t(at - usable)];
            formula_->setCurrentIndex(state_.formulaAt());
            dialogs.message(this, tr("Formula"),
                tr("“%1” cannot be weighed yet. %2 The Shelf has it under Formulas.").arg(own.name, own.problem));
            return;
        }
        state_.setFormula(at);
        workAgain();
    });
}

void MixingView::buildSheetsMenu(QPushButton& button)
{
    auto* menu = new QMenu(&button);
    menu->addAction(tr("Label for the &bottle..."), this, &MixingView::saveBottleLabel);
    menu->addAction(tr("Labels for the session's &prints..."), this, &MixingView::savePrintLabels);
    menu->addSeparator();
    menu->addAction(tr("&Risk sheet of the session..."), this, &MixingView::saveRiskSheet);
    menu->addAction(tr("&Teaching sheet of the mix..."), this, &MixingView::saveTeachingSheet);
    button.setMenu(menu);
    button.setToolTip(tr("As PDF: bottle labels, print labels, a risk sheet, a teaching sheet."));
}

void MixingView::arrive()
{
    readAgain();
    formula_->setFocus();
}

void MixingView::showPage(Page page)
{
    tabs_->setCurrentIndex(int(page));
}

void MixingView::setFormula(const QString& key)
{
    for (size_t i = 0; i < state_.formulas().size(); ++i)
        if (state_.formulas()[i].key == key)
            state_.setFormula(int(i));
    workAgain();
}

void MixingView::readAgain()
{
    state_.read(desk.notebook());
    workAgain();
}

void MixingView::takeOrder()
{
    state_.order.sheets = sheets_->value();
    state_.order.width_mm = width_->value();
    state_.order.height_mm = height_->value();
    state_.order.coat_ml_m2 = coat_->value();
    state_.order.spare_pct = spare_->value();
    state_.order.balance_g = balance_->currentData().toDouble();
    workAgain();
}

void MixingView::workAgain()
{
    if (const auto worked = state_.work(); !worked) {
        sum_->setText(worked.error().sentence());
        return;
    }
    formula_->clear();
    for (const auto& recipe : state_.formulas())
        formula_->addItem(recipe.key.startsWith(QLatin1String("own/")) ? tr("Own: %1").arg(recipe.name) : recipe.name);
    for (const auto& own : state_.unusable()) {
        formula_->addItem(tr("Own: %1 (cannot be weighed yet)").arg(own.name));
        formula_->setItemData(formula_->count() - 1, own.problem, Qt::ToolTipRole);
        formula_->setItemData(formula_->count() - 1, own.problem, Qt::AccessibleDescriptionRole);
    }
    formula_->setCurrentIndex(state_.formulaAt());
    about_->setText(state_.formula().source);
    refresh();
}

void MixingView::refresh()
{
    const auto& scaled = state_.scaled();
    const auto ml = [](double value) { return QLocale().toString(value, 'f', 1); };
    QStringList parts;
    for (const auto& solution : scaled.solutions)
        parts << tr("%1: %2 mL").arg(solution.name, ml(solution.volume_ml));
    QString sum = parts.size() > 1
        ? tr("%1 mL on the sheets, %2 mL of mix with the spare (%3).")
              .arg(ml(scaled.coat_volume_ml), ml(scaled.volume_ml), parts.join(QStringLiteral(", ")))
        : tr("%1 mL on the sheets, %2 mL of mix with the spare.").arg(ml(scaled.coat_volume_ml), ml(scaled.volume_ml));
    sum += QLatin1Char(' ')
        + tr("On the sheet: %1 mmol/m² iron, %2 mmol/m² hexacyanoferrate.")
              .arg(QLocale().toString(scaled.iron_mmol_m2, 'f', 2),
                  QLocale().toString(scaled.hexacyanoferrate_mmol_m2, 'f', 2));
    sum_->setText(sum);
    weigh_->refresh();
    make_->refresh();
    check_->refresh();
}

void MixingView::keepMix()
{
    const auto code = check_->code();
    if (code.isEmpty()) {
        dialogs.message(this, tr("Keep this mix"), tr("The mix needs a code, such as M5: it stands on the bottle."));
        return;
    }
    if (state_.weighed() == 0) {
        const auto answer = dialogs.question(this, tr("Keep this mix"),
            tr("Nothing was entered as really weighed. Keep %1 with its substances and without masses?").arg(code),
            { tr("Go back and enter them"), tr("Keep it without masses") });
        if (answer != 1)
            return;
    }
    const auto prints = check_->prints();
    qint64 made = 0;
    const bool done = desk.perform(tr("Mix %1").arg(code), [&](store::Writer& writer) -> Outcome {
        const auto mix = state_.write(writer, code, desk.now(), check_->notes());
        if (!mix)
            return mix.error();
        made = *mix;
        for (const auto print : prints)
            if (auto set = writer.set({ Entity::Print, print }, QStringLiteral("print_mix"), Known { Link { *mix } });
                !set)
                return set;
        return Done {};
    });
    if (!done)
        return;
    kept_ = made;
    for (const auto& line : state_.lines())
        state_.entered(line.component) = {};
    check_->forgetEntries();
    readAgain();
    Q_EMIT say(prints.isEmpty()
            ? tr("Kept: %1, on the Shelf and for the Bench. Ctrl+Z takes it back.").arg(code)
            : tr("Kept: %1, for %n print(s) of the session. Ctrl+Z takes it back.", nullptr, int(prints.size()))
                  .arg(code));
}

} // namespace washfast::ui
