#include "ui/curves/negative_page.h"

#include "core/files/write_aside.h"
#include "ui/common/chart_export.h"
#include "ui/common/controls.h"
#include "ui/common/empty_state.h"
#include "ui/curves/curve_chart.h"
#include "ui/curves/dose_goal.h"
#include "ui/curves/step_chart.h"
#include "ui/curves/words.h"

#include <QCheckBox>
#include <QComboBox>
#include <QDoubleSpinBox>
#include <QHBoxLayout>
#include <QHeaderView>
#include <QLabel>
#include <QPushButton>
#include <QSpinBox>
#include <QStackedWidget>
#include <QTableWidget>
#include <QTextBrowser>
#include <QVBoxLayout>

namespace washfast::ui::curves {

namespace {

constexpr int sideWidth = 476;

/// Written whole or not at all.
QString writeFile(const QString& path, const QByteArray& bytes)
{
    const auto written = files::writeFiles({ { path, bytes } }, files::Existing::Replace);
    return written ? QString() : written.error().sentence();
}

} // namespace

NegativePage::NegativePage(const Services& services, QWidget* parent)
    : QWidget(parent)
    , services_(services)
{
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(6, 6, 6, 6);
    buildBar(*column);
    pages_ = new QStackedWidget(this);
    empty_ = new EmptyState(services.look.theme(), this);
    pages_->addWidget(empty_);
    auto* body = new QWidget(this);
    auto* row = new QHBoxLayout(body);
    row->setContentsMargins(0, 0, 0, 0);
    chart_ = new CurveChart(services.look.theme(), false, body);
    row->addWidget(chart_, 1);
    auto* side = new QWidget(body);
    side->setFixedWidth(sideWidth);
    auto* side_column = new QVBoxLayout(side);
    side_column->setContentsMargins(6, 0, 0, 0);
    rows_ = new QTableWidget(0, 5, side);
    rows_->setAccessibleName(tr("Tone table"));
    rows_->setHorizontalHeaderLabels(
        { tr("Tone %"), tr("Density"), tr("Dose, J/cm²"), tr("Film density"), tr("Film value") });
    rows_->setEditTriggers(QAbstractItemView::NoEditTriggers);
    rows_->setSelectionMode(QAbstractItemView::SingleSelection);
    styleTable(*rows_);
    rows_->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    rows_->horizontalHeader()->setSectionResizeMode(QHeaderView::ResizeToContents);
    rows_->horizontalHeader()->setSectionResizeMode(0, QHeaderView::Stretch);
    for (int c = 0; c < 5; ++c)
        rows_->horizontalHeaderItem(c)->setTextAlignment(figureAlignment);
    side_column->addWidget(rows_, 3);
    sentences_ = new QTextBrowser(side);
    sentences_->setAccessibleName(tr("What to know about this table"));
    sentences_->setTabChangesFocus(true);
    sentences_->setFrameShape(QFrame::NoFrame);
    side_column->addWidget(sentences_, 1);
    row->addWidget(side);
    pages_->addWidget(body);
    column->addWidget(pages_, 1);
    buildChartBar(*column);
}

void NegativePage::buildBar(QVBoxLayout& column)
{
    auto* bar = new QHBoxLayout;
    column.addLayout(bar);
    const auto box = [&](QComboBox*& made, const QString& text, const QString& name, int letters, int stretch) {
        made = narrowBox(this, name, letters);
        made->setMaxVisibleItems(24);
        bar->addWidget(labelFor(text, made, this));
        bar->addWidget(made, stretch);
    };
    box(of_, tr("&Curve of:"), tr("What the curve is of"), 20, 2);
    box(film_, tr("Fil&m:"), tr("Film with measured steps"), 14, 1);
    by_shoulder_ = new QCheckBox(tr("exposure &by the shoulder"), this);
    by_shoulder_->setToolTip(tr("So that the clearest film just reaches the shoulder of the curve."));
    by_shoulder_->setChecked(true);
    bar->addWidget(by_shoulder_);
    exposure_ = new QDoubleSpinBox(this);
    exposure_->setRange(0.01, 60);
    exposure_->setDecimals(2);
    exposure_->setSingleStep(0.1);
    exposure_->setSuffix(tr(" J/cm²"));
    exposure_->setKeyboardTracking(false);
    exposure_->setEnabled(false);
    exposure_->setAccessibleName(tr("Exposure to give"));
    bar->addWidget(exposure_);
    take_ = new QPushButton(tr("&Take as dose goal..."), this);
    take_->setToolTip(
        tr("Sets the wanted dose of the running session's prints of this mix and paper that are not exposed yet."));
    bar->addWidget(take_);
    connect(of_, &QComboBox::currentIndexChanged, this, [this](int at) {
        if (at >= 0 && at < int(groups_.size()))
            Q_EMIT curveChosen(groups_[size_t(at)].of);
    });
    connect(film_, &QComboBox::currentIndexChanged, this, &NegativePage::showAgain);
    connect(by_shoulder_, &QCheckBox::toggled, this, [this](bool on) {
        exposure_->setEnabled(!on);
        showAgain();
    });
    connect(exposure_, &QDoubleSpinBox::valueChanged, this, &NegativePage::showAgain);
    connect(take_, &QPushButton::clicked, this, &NegativePage::takeAsGoal);
}

void NegativePage::buildChartBar(QVBoxLayout& column)
{
    auto* bar = new QHBoxLayout;
    column.addLayout(bar);
    steps_ = new QSpinBox(this);
    steps_->setRange(fewestChartSteps, mostChartSteps);
    steps_->setValue(StepChart {}.steps);
    steps_->setAccessibleName(tr("Steps of the chart"));
    bar->addWidget(labelFor(tr("Step chart, ste&ps:"), steps_, this));
    bar->addWidget(steps_);
    mirrored_ = new QCheckBox(tr("mirro&red"), this);
    mirrored_->setToolTip(tr("For film that lies with its ink on the paper."));
    bar->addWidget(mirrored_);
    const auto button = [&](const QString& text, const QString& hint, auto slot) {
        auto* made = new QPushButton(text, this);
        made->setToolTip(hint);
        bar->addWidget(made);
        connect(made, &QPushButton::clicked, this, slot);
        return made;
    };
    button(tr("Pri&nt step chart..."),
        tr("A PDF: the chart to print on film, and a page that says what to do with it."),
        &NegativePage::saveStepChart);
    button(tr("Record &its film..."),
        tr("Makes a negative on the Shelf with the steps of this chart; their ultraviolet densities are to be "
           "entered."),
        &NegativePage::recordFilm);
    bar->addStretch(1);
    save_plot_ = button(tr("&Save plot..."), tr("As SVG, PDF or PNG."), &NegativePage::savePlot);
    save_table_ = button(tr("Save tab&le..."), tr("The table as a plain CSV file."), &NegativePage::saveTable);
}

QWidget* NegativePage::first() const
{
    return of_;
}

QString NegativePage::says() const
{
    return pages_->currentIndex() == 0 ? empty_->sentence() : sentences_->toPlainText();
}

void NegativePage::setCurve(
    std::shared_ptr<const CurvePageState> curve, const std::vector<CurveGroup>& groups, const CurveOf& chosen)
{
    curve_ = std::move(curve);
    groups_ = groups;
    {
        const QSignalBlocker quiet(of_);
        of_->clear();
        for (const auto& group : groups_) {
            of_->addItem(group.name);
            if (group.of == chosen)
                of_->setCurrentIndex(of_->count() - 1);
        }
    }
    fillFilms();
    showAgain();
}

void NegativePage::fillFilms()
{
    const auto before = film_->currentData().toLongLong();
    films_ = filmChoices(services_.desk.notebook());
    const QSignalBlocker quiet(film_);
    film_->clear();
    for (const auto& film : films_)
        film_->addItem(film.lacking.isEmpty() ? film.name : tr("%1 (not measured)").arg(film.name), film.id);
    film_->setCurrentIndex(std::max(film_->count() > 0 ? 0 : -1, film_->findData(before)));
}

void NegativePage::showAgain()
{
    state_.reset();
    if (curve_) {
        NegativeAsk ask { film_->currentData().toLongLong() };
        if (!by_shoulder_->isChecked())
            ask.exposure_j_cm2 = exposure_->value();
        state_ = std::make_shared<const NegativeState>(*curve_, services_.desk.notebook(), ask);
    }
    const bool any = state_ && state_->table();
    for (auto* button : { take_, save_table_, save_plot_ })
        button->setEnabled(any);
    pages_->setCurrentIndex(any ? 1 : 0);
    if (!any) {
        empty_->setContent(tr("No tone table yet"),
            state_ ? state_->sentences().join(QLatin1Char('\n'))
                   : tr("A curve is needed first: the page Characteristic curve says of what."),
            {});
        return;
    }
    if (by_shoulder_->isChecked()) {
        const QSignalBlocker quiet(exposure_);
        exposure_->setValue(*state_->exposure_j_cm2());
    }
    showRows();
    chart_->setPicture(state_->picture(), state_->title(), {}, state_->inWords());
}

void NegativePage::showRows()
{
    const auto& table = *state_->table();
    rows_->setRowCount(int(table.rows.size()));
    for (size_t i = 0; i < table.rows.size(); ++i) {
        const auto& row = table.rows[i];
        const QString texts[] { figure(row.tone_percent, 0), figure(row.print_density, 2),
            doseFigure(std::pow(10, row.log_h)), figure(row.film_density, 2), figure(row.film_value, 1) };
        for (int c = 0; c < 5; ++c) {
            auto* item = new QTableWidgetItem(texts[c]);
            item->setTextAlignment(figureAlignment);
            rows_->setItem(int(i), c, item);
        }
    }
    QString html;
    for (const auto& sentence : state_->sentences())
        html += QStringLiteral("<p style='margin:0 0 5px 0'>%1</p>").arg(sentence.toHtmlEscaped());
    sentences_->setHtml(html);
}

void NegativePage::saveTable()
{
    const auto path = services_.dialogs.saveFile(this, tr("Save the tone table"),
        tr("tone table") + QStringLiteral(".csv"), { tr("Comma-separated values (*.csv)") });
    if (!path)
        return;
    if (const auto problem = writeFile(*path, density::writeToneTable(*state_->table())); !problem.isEmpty())
        services_.dialogs.error(this, tr("The table was not saved"), problem, *path);
    else
        Q_EMIT say(tr("Saved: %1").arg(*path));
}

void NegativePage::savePlot()
{
    const auto path = services_.dialogs.saveFile(
        this, tr("Save the plot"), tr("tone table") + QStringLiteral(".svg"), chartFileFilters());
    if (!path)
        return;
    if (const auto problem = saveChart(*chart_, *path, state_->title()); !problem.isEmpty())
        services_.dialogs.error(this, tr("The plot was not saved"), problem, *path);
    else
        Q_EMIT say(tr("Saved: %1").arg(*path));
}

void NegativePage::saveStepChart()
{
    const StepChart chart { steps_->value(), mirrored_->isChecked() };
    const auto path = services_.dialogs.saveFile(
        this, tr("Print the step chart"), tr("step chart") + QStringLiteral(".pdf"), { tr("PDF (*.pdf)") });
    if (!path)
        return;
    if (const auto done = sheets::writePdf(*path, tr("Step chart"), stepChartPages, stepChartPainter(chart)); !done)
        services_.dialogs.error(this, tr("The step chart was not saved"), done.error().says, *path);
    else
        Q_EMIT say(tr("Saved: %1. Print its first page on film at real size.").arg(*path));
}

void NegativePage::recordFilm()
{
    const StepChart chart { steps_->value(), mirrored_->isChecked() };
    const auto name
        = services_.dialogs.askText(this, tr("Record the film of the step chart"), tr("Name of the film"), {});
    if (!name || name->trimmed().isEmpty())
        return;
    qint64 made = 0;
    const bool done = services_.desk.perform(tr("Film %1 with %n step(s)", nullptr, chart.steps).arg(name->trimmed()),
        [&](store::Writer& writer) -> Outcome {
            const auto film = writer.add(Entity::Negative, 0,
                { { QStringLiteral("negative_name"), Known { name->trimmed() } },
                    { QStringLiteral("negative_kind"), Known { QStringLiteral("film") } } });
            if (!film)
                return film.error();
            made = *film;
            const auto values = chart.values();
            for (size_t i = 0; i < values.size(); ++i)
                if (const auto step = writer.add(Entity::NegativeStep, *film,
                        { { QStringLiteral("step_number"), knownNumber(double(i + 1)) },
                            { QStringLiteral("step_value"), knownNumber(std::round(values[i] * 10) / 10) } });
                    !step)
                    return step.error();
            return Done {};
        });
    if (!done)
        return;
    fillFilms();
    film_->setCurrentIndex(film_->findData(made));
    Q_EMIT say(tr("“%1” is on the Shelf; enter the ultraviolet densities of its steps there.").arg(name->trimmed()));
}

void NegativePage::takeAsGoal()
{
    const int at = of_->currentIndex();
    const auto of = at >= 0 && at < int(groups_.size()) ? groups_[size_t(at)].of : CurveOf {};
    const auto done
        = takeGoal(services_.desk, services_.dialogs, this, goalPlan(services_.desk, of, state_->exposure_j_cm2()));
    if (!done.isEmpty())
        Q_EMIT say(done);
}

void NegativePage::setTheme(const Theme& theme)
{
    empty_->setTheme(theme);
    chart_->setTheme(theme);
}

} // namespace washfast::ui::curves
