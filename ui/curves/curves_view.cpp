#include "ui/curves/curves_view.h"

#include "core/quantity/value_text.h"
#include "ui/common/chart_export.h"
#include "ui/common/controls.h"
#include "ui/common/empty_state.h"
#include "ui/curves/curve_page.h"
#include "ui/curves/negative_page.h"
#include "ui/curves/prints_chart.h"
#include "ui/curves/words.h"

#include <QCheckBox>
#include <QClipboard>
#include <QComboBox>
#include <QGuiApplication>
#include <QHBoxLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QStackedWidget>
#include <QTabWidget>
#include <QVBoxLayout>

namespace washfast::ui {

CurvesView::CurvesView(const Services& services, QWidget* parent)
    : View(services, parent)
{
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    tabs_ = new QTabWidget(this);
    tabs_->setDocumentMode(true);
    tabs_->setAccessibleName(tr("Prints, characteristic curve, negative"));
    tabs_->addTab(buildPrints(), tr("&1 Prints"));
    for (const auto& title : { tr("&2 Characteristic curve"), tr("&3 Negative") }) {
        auto* page = new QWidget(tabs_); // filled when it is first shown
        auto* room = new QVBoxLayout(page);
        room->setContentsMargins(0, 0, 0, 0);
        tabs_->addTab(page, title);
    }
    column->addWidget(tabs_);
    connect(tabs_, &QTabWidget::currentChanged, this, [this](int page) {
        if (Page(page) == Page::Prints)
            return;
        buildCurves();
        refreshNegative();
    });

    connect(chart_, &PrintsChart::hovered, this, &CurvesView::tellAbout);
    connect(chart_, &PrintsChart::picked, this, [this](int at) {
        if (at >= 0)
            Q_EMIT openPrint(desk.notebook().prints().id(chart_->prints().rows[size_t(at)]));
    });
    connect(empty_, &EmptyState::actionTriggered, this, [this] {
        outcome_->setCurrentIndex(0);
        filter_->clear();
        showAgain();
    });
    const auto later = [this] {
        stale_ = true;
        if (isVisible())
            showAgain();
    };
    connect(&desk, &Desk::changed, this, later);
    connect(&desk, &Desk::reloaded, this, later);
    connect(&look, &ThemeSource::changed, chart_, &PrintsChart::setTheme);
    connect(&look, &ThemeSource::changed, empty_, &EmptyState::setTheme);
}

QWidget* CurvesView::buildPrints()
{
    auto* page = new QWidget(this);
    auto* column = new QVBoxLayout(page);
    buildBar(*column);
    pages_ = new QStackedWidget(page);
    empty_ = new EmptyState(look.theme(), page);
    chart_ = new PrintsChart(look.theme(), page);
    pages_->addWidget(empty_);
    pages_->addWidget(chart_);
    column->addWidget(pages_, 1);
    auto* foot = new QHBoxLayout;
    about_ = new QLabel(page);
    about_->setTextFormat(Qt::PlainText);
    counts_ = new QLabel(page);
    foot->addWidget(about_, 1);
    foot->addWidget(counts_);
    column->addLayout(foot);
    return page;
}

void CurvesView::buildCurves()
{
    if (curve_page_)
        return;
    const auto put = [this](Page page, QWidget* made) {
        tabs_->widget(int(page))->layout()->addWidget(made);
        made->show();
    };
    curve_page_ = new curves::CurvePage(services());
    negative_page_ = new curves::NegativePage(services());
    connect(curve_page_, &curves::CurvePage::openPrint, this, &View::openPrint);
    connect(curve_page_, &curves::CurvePage::say, this, &View::say);
    connect(negative_page_, &curves::NegativePage::say, this, &View::say);
    connect(curve_page_, &curves::CurvePage::stateChanged, this,
        [this] { negative_page_->setCurve(curve_page_->state(), curve_page_->groups(), curve_page_->chosen()); });
    connect(negative_page_, &curves::NegativePage::curveChosen, curve_page_, &curves::CurvePage::choose);
    connect(&desk, &Desk::changed, this, &CurvesView::refreshNegative);
    connect(&desk, &Desk::reloaded, this, &CurvesView::refreshNegative);
    connect(&look, &ThemeSource::changed, curve_page_, &curves::CurvePage::setTheme);
    connect(&look, &ThemeSource::changed, negative_page_, &curves::NegativePage::setTheme);
    put(Page::Characteristic, curve_page_); // it reads the notebook when it is shown, and tells the other
    put(Page::Negative, negative_page_);
}

void CurvesView::refreshNegative()
{
    if (isVisible() && Page(tabs_->currentIndex()) == Page::Negative)
        curve_page_->refresh(); // it works from that page's curve
}

curves::CurvePage* CurvesView::curvePage()
{
    buildCurves();
    return curve_page_;
}

curves::NegativePage* CurvesView::negativePage()
{
    buildCurves();
    return negative_page_;
}

void CurvesView::showPage(Page page)
{
    tabs_->setCurrentIndex(int(page));
}

void CurvesView::buildBar(QVBoxLayout& column)
{
    auto* bar = new QHBoxLayout;
    column.addLayout(bar);
    const auto label = [&](const QString& text, QWidget* buddy) {
        auto* made = new QLabel(text, this);
        made->setBuddy(buddy);
        bar->addWidget(made);
    };
    plot_ = new QComboBox(this);
    plot_->setAccessibleName(tr("Which plot"));
    for (const auto& choice : plotChoices())
        plot_->addItem(curves::Words::tr(choice.title), int(choice.plot));
    label(tr("P&lot:"), plot_);
    bar->addWidget(plot_);
    outcome_ = new QComboBox(this);
    outcome_->setAccessibleName(tr("Which outcomes"));
    outcome_->addItem(tr("all outcomes"), QString());
    outcome_->addItem(tr("failed in any way"), QStringLiteral("failed"));
    outcome_->addItem(tr("not failed"), QStringLiteral("not_failed"));
    for (const auto& choice : desk.catalogue().columnField(Entity::Print, u"print_outcome").choices)
        outcome_->addItem(choice.label, choice.key);
    label(tr("&Outcome:"), outcome_);
    bar->addWidget(outcome_);
    filter_ = new QLineEdit(this);
    filter_->setPlaceholderText(tr("only these prints, for example: mix_code = M3"));
    filter_->setAccessibleName(tr("Filter"));
    filter_->setClearButtonEnabled(true);
    bar->addWidget(filter_, 1);
    auto* save = new QPushButton(tr("&Save..."), this);
    save->setToolTip(tr("As SVG, PDF or PNG."));
    auto* copy = new QPushButton(tr("Co&py"), this);
    bar->addWidget(save);
    bar->addWidget(copy);
    buildAxes(column);
    complaint_ = new QLabel(this);
    complaint_->setWordWrap(true);
    complaint_->hide();
    column.addWidget(complaint_);
    connect(plot_, &QComboBox::currentIndexChanged, this, &CurvesView::showAgain);
    connect(outcome_, &QComboBox::currentIndexChanged, this, &CurvesView::showAgain);
    connect(filter_, &QLineEdit::textChanged, this, [this] {
        auto parsed = parseFilter(filter_->text(), desk.catalogue());
        complaint_->setVisible(!parsed.ok());
        if (!parsed.ok()) {
            complaint_->setText(QStringLiteral("✕ ") + parsed.fault->says);
            return;
        }
        kept_filter_ = std::move(parsed.filter);
        showAgain();
    });
    connect(save, &QPushButton::clicked, this, &CurvesView::save);
    connect(copy, &QPushButton::clicked, this, [this] {
        const auto problem = copyChart(*chart_, *QGuiApplication::clipboard(), plotTitle());
        Q_EMIT say(problem.isEmpty() ? tr("Copied as a picture.") : problem);
    });
}

void CurvesView::buildAxes(QVBoxLayout& column)
{
    choose_ = new QWidget(this);
    auto* row = new QHBoxLayout(choose_);
    row->setContentsMargins(0, 0, 0, 0);
    const auto box = [&](const QString& text, const QString& name, bool may_be_none) {
        auto* made = narrowBox(choose_, name, 24);
        made->setMaxVisibleItems(24);
        if (may_be_none)
            made->addItem(tr("nothing"), QString());
        for (const auto* field : plottable(desk.catalogue()))
            made->addItem(field->labelWithUnit(), field->key);
        row->addWidget(labelFor(text, made, choose_));
        row->addWidget(made, 1);
        connect(made, &QComboBox::currentIndexChanged, this, &CurvesView::showAgain);
        return made;
    };
    y_ = box(tr("&Up:"), tr("What goes up"), false);
    x_ = box(tr("ac&ross:"), tr("What goes across"), false);
    colour_ = box(tr("colou&r:"), tr("What colours the points"), true);
    x_log_ = new QCheckBox(tr("lo&garithmic"), choose_);
    row->addWidget(x_log_);
    connect(x_log_, &QCheckBox::toggled, this, &CurvesView::showAgain);
    choose_->hide();
    column.addWidget(choose_);
    const auto first = axesOf(Plot::Chosen);
    const QSignalBlocker quiet[] { QSignalBlocker(x_), QSignalBlocker(y_), QSignalBlocker(colour_) };
    x_->setCurrentIndex(x_->findData(first.x));
    y_->setCurrentIndex(y_->findData(first.y));
    colour_->setCurrentIndex(colour_->findData(first.colour));
}

PlotAxes CurvesView::axes() const
{
    const auto plot = Plot(plot_->currentData().toInt());
    if (plot != Plot::Chosen)
        return axesOf(plot);
    return { x_->currentData().toString(), y_->currentData().toString(), colour_->currentData().toString(),
        x_log_->isChecked(), false };
}

QString CurvesView::plotTitle() const
{
    if (Plot(plot_->currentData().toInt()) != Plot::Chosen)
        return plot_->currentText();
    const auto label = [&](const QComboBox* box) {
        const auto* field = desk.catalogue().findPrintField(box->currentData().toString());
        return field ? field->label : QString();
    };
    return tr("%1 against %2").arg(label(y_), label(x_));
}

void CurvesView::setAxes(const QString& x, const QString& y, const QString& colour)
{
    x_->setCurrentIndex(qMax(0, x_->findData(x)));
    y_->setCurrentIndex(qMax(0, y_->findData(y)));
    colour_->setCurrentIndex(qMax(0, colour_->findData(colour)));
    setPlot(Plot::Chosen);
}

void CurvesView::arrive()
{
    if (stale_)
        showAgain();
    switch (Page(tabs_->currentIndex())) {
    case Page::Prints:
        plot_->setFocus();
        break;
    case Page::Characteristic:
        curvePage()->first()->setFocus();
        break;
    case Page::Negative:
        curvePage()->refresh();
        negative_page_->first()->setFocus();
        break;
    }
}

void CurvesView::setPlot(Plot plot)
{
    showPage(Page::Prints);
    plot_->setCurrentIndex(plot_->findData(int(plot)));
}

void CurvesView::showAgain()
{
    stale_ = false;
    choose_->setVisible(Plot(plot_->currentData().toInt()) == Plot::Chosen);
    const auto chosen = axes();
    auto prints = plottedPrints(desk.columns(), chosen, kept_filter_, outcome_->currentData().toString());
    const int shown = int(prints.rows.size());
    counts_->setText(desk.complete()
            ? tr("%1 of %n prints; without a value: %2", nullptr, int(prints.considered)).arg(shown).arg(prints.lacking)
            : tr("%n prints of the running session; the rest is being read", nullptr, shown));
    if (shown == 0) {
        const bool any = desk.notebook().prints().rows() > 0;
        empty_->setContent(tr("No print can be drawn"),
            any ? tr(
                "This plot needs \"%1\" and \"%2\" of a print. %n print(s) lack one of them.", nullptr, prints.lacking)
                      .arg(prints.x_label, prints.y_label)
                : tr("Prints with their readings will stand here as points."),
            any ? tr("Show all outcomes") : QString());
    }
    pages_->setCurrentIndex(shown == 0 ? 0 : 1);
    chart_->setPrints(std::move(prints), chosen, plotTitle());
    tellAbout(-1);
}

void CurvesView::tellAbout(int at)
{
    if (at < 0) {
        about_->setText(tr("Point at a print to see which it is; click or press Enter to open it."));
        return;
    }
    const int row = chart_->prints().rows[size_t(at)];
    QStringList parts;
    for (const char* key : { "print_code", "session_code", "mix_code", "dose_j_cm2", "moisture_at_expose_pct",
             "moisture_at_rinse_pct", "net_density", "kept", "print_outcome" }) {
        const auto* field = desk.catalogue().findPrintField(QString::fromLatin1(key));
        const auto known = field ? desk.reader().get(row, QString::fromLatin1(key)) : Known {};
        if (known.has())
            parts << (field->identity ? QString() : field->label + QLatin1Char(' '))
                    + displayText(*field, known, QLocale())
                    + (field->unit.isEmpty() ? QString() : QLatin1Char(' ') + field->unit);
    }
    about_->setText(parts.join(QStringLiteral("  ·  ")));
}

void CurvesView::save()
{
    const auto path
        = dialogs.saveFile(this, tr("Save the plot"), tr("curves") + QStringLiteral(".svg"), chartFileFilters());
    if (!path)
        return;
    if (const auto problem = saveChart(*chart_, *path, plotTitle()); !problem.isEmpty())
        dialogs.error(this, tr("The plot was not saved"), problem, *path);
    else
        Q_EMIT say(tr("Saved: %1").arg(*path));
}

} // namespace washfast::ui
