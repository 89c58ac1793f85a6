// The controls of curve_page.h.
#include "ui/common/controls.h"
#include "ui/common/empty_state.h"
#include "ui/curves/curve_chart.h"
#include "ui/curves/curve_page.h"

#include <QCheckBox>
#include <QComboBox>
#include <QDoubleSpinBox>
#include <QHBoxLayout>
#include <QHeaderView>
#include <QLabel>
#include <QPushButton>
#include <QStackedWidget>
#include <QTableWidget>
#include <QTextBrowser>

namespace washfast::ui::curves {

namespace {

constexpr int sideWidth = 390;
constexpr int driftHeight = 180;

} // namespace

CurvePage::CurvePage(const Services& services, QWidget* parent)
    : QWidget(parent)
    , services_(services)
{
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(6, 6, 6, 0);
    buildBar(*column);
    buildWanted(*column);
    pages_ = new QStackedWidget(this);
    empty_ = new EmptyState(services.look.theme(), this);
    pages_->addWidget(empty_);
    auto* body = new QWidget(this);
    auto* row = new QHBoxLayout(body);
    row->setContentsMargins(0, 0, 0, 0);
    chart_ = new CurveChart(services.look.theme(), true, body);
    row->addWidget(chart_, 1);
    row->addWidget(buildSide());
    pages_->addWidget(body);
    column->addWidget(pages_, 1);
    about_ = new QLabel(this);
    about_->setTextFormat(Qt::PlainText);
    about_->setAccessibleName(tr("The step that is pointed at"));
    column->addWidget(about_);

    for (auto* chart : { chart_, drift_ }) {
        connect(chart, &CurveChart::hovered, this, [this, chart](int point) { tellAbout(*chart, point); });
        connect(chart, &CurveChart::picked, this, [this, chart](int point) {
            if (state_ && point >= 0)
                Q_EMIT openPrint(state_->prints()[size_t(chart->picture().points[size_t(point)].group)].print.id);
        });
    }
    const auto later = [this] {
        stale_ = true;
        if (isVisible())
            readAgain();
    };
    connect(&services_.desk, &Desk::changed, this, later);
    connect(&services_.desk, &Desk::reloaded, this, later);
}

void CurvePage::buildBar(QVBoxLayout& column)
{
    auto* bar = new QHBoxLayout;
    column.addLayout(bar);
    of_ = narrowBox(this, tr("What the curve is of"), 26);
    of_->setMaxVisibleItems(24);
    bar->addWidget(labelFor(tr("&Curve of:"), of_, this));
    bar->addWidget(of_, 1);
    const auto choices
        = [&](QComboBox*& box, const QString& text, const QString& name, const QString& automatic, QStringView key) {
              box = new QComboBox(this);
              box->setAccessibleName(name);
              box->addItem(automatic, QString());
              for (const auto& choice : services_.desk.catalogue().columnField(Entity::Reading, key).choices)
                  box->addItem(choice.label, choice.key);
              bar->addWidget(labelFor(text, box, this));
              bar->addWidget(box);
              connect(box, &QComboBox::currentIndexChanged, this, &CurvePage::showAgain);
          };
    choices(
        when_, tr("Re&ad:"), tr("State in which the steps were read"), tr("a day after, else dry"), u"reading_when");
    choices(channel_, tr("Cha&nnel:"), tr("Channel of the densities"), tr("red, else most read"), u"reading_channel");
    net_ = new QCheckBox(tr("above the pa&per"), this);
    net_->setToolTip(tr("Takes the density of the bare paper off."));
    bar->addWidget(net_);
    auto* save = new QPushButton(tr("&Save..."), this);
    save->setToolTip(tr("The curve as SVG, PDF or PNG."));
    save->setAccessibleName(tr("Save the curve"));
    bar->addWidget(save);
    connect(of_, &QComboBox::currentIndexChanged, this, [this] {
        by_hand_ = false;
        showAgain();
    });
    connect(net_, &QCheckBox::toggled, this, [this] {
        by_hand_ = false; // the number meant something else
        showAgain();
    });
    connect(save, &QPushButton::clicked, this, [this] { this->save(*chart_, tr("curve") + QStringLiteral(".svg")); });
}

void CurvePage::buildWanted(QVBoxLayout& column)
{
    auto* row = new QHBoxLayout;
    column.addLayout(row);
    wanted_ = new QDoubleSpinBox(this);
    wanted_->setRange(0, 3);
    wanted_->setDecimals(2);
    wanted_->setSingleStep(0.05);
    wanted_->setKeyboardTracking(false);
    wanted_->setAccessibleName(tr("Wanted density"));
    row->addWidget(labelFor(tr("&Wanted density:"), wanted_, this));
    row->addWidget(wanted_);
    film_ = narrowBox(this, tr("What lies over the deepest tone"), 16);
    film_->setToolTip(
        tr("The clearest part of a negative takes some of the light: its ultraviolet density comes on top."));
    row->addWidget(labelFor(tr("&under:"), film_, this));
    row->addWidget(film_);
    goal_ = new QLabel(this);
    goal_->setTextInteractionFlags(Qt::TextSelectableByMouse);
    goal_->setAccessibleName(tr("Dose for it"));
    row->addWidget(goal_, 1);
    laid_over_ = new QCheckBox(tr("lay prints &over one another"), this);
    laid_over_->setToolTip(tr("Takes each print's shift off, so that all lie on the common curve."));
    laid_over_->setChecked(true);
    row->addWidget(laid_over_);
    take_ = new QPushButton(tr("&Take as dose goal..."), this);
    take_->setToolTip(
        tr("Sets the wanted dose of the running session's prints of this mix and paper that are not exposed yet."));
    row->addWidget(take_);
    connect(wanted_, &QDoubleSpinBox::valueChanged, this, &CurvePage::wantAnother);
    connect(film_, &QComboBox::currentIndexChanged, this, [this] {
        if (state_)
            showFigures();
    });
    connect(laid_over_, &QCheckBox::toggled, this, [this] {
        if (state_)
            showCharts();
    });
    connect(take_, &QPushButton::clicked, this, &CurvePage::takeAsGoal);
}

QWidget* CurvePage::buildSide()
{
    auto* side = new QWidget(this);
    side->setFixedWidth(sideWidth);
    auto* column = new QVBoxLayout(side);
    column->setContentsMargins(6, 0, 0, 0);
    figures_ = new QTableWidget(0, 3, side);
    figures_->setAccessibleName(tr("Figures of the curve"));
    figures_->setHorizontalHeaderLabels({ tr("Read from the curve"), tr("Value"), tr("95 % interval") });
    for (const int c : { 1, 2 })
        figures_->horizontalHeaderItem(c)->setTextAlignment(figureAlignment);
    figures_->setEditTriggers(QAbstractItemView::NoEditTriggers);
    figures_->setSelectionMode(QAbstractItemView::SingleSelection);
    styleTable(*figures_);
    figures_->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    for (const int c : { 0, 1 })
        figures_->horizontalHeader()->setSectionResizeMode(c, QHeaderView::ResizeToContents);
    figures_->horizontalHeader()->setSectionResizeMode(2, QHeaderView::Stretch);
    column->addWidget(figures_, 3);
    sentences_ = new QTextBrowser(side);
    sentences_->setAccessibleName(tr("What to know about this curve"));
    sentences_->setTabChangesFocus(true);
    sentences_->setFrameShape(QFrame::NoFrame);
    sentences_->setMinimumHeight(70);
    column->addWidget(sentences_, 2);
    drift_part_ = new QWidget(side);
    auto* part = new QVBoxLayout(drift_part_);
    part->setContentsMargins(0, 0, 0, 0);
    part->setSpacing(0);
    drift_ = new CurveChart(services_.look.theme(), false, drift_part_);
    drift_->setCompact();
    drift_->setFromZero(false);
    drift_->setFixedHeight(driftHeight);
    part->addWidget(drift_);
    auto* save = new QPushButton(tr("Save the &drift..."), drift_part_);
    save->setToolTip(tr("This small plot as SVG, PDF or PNG."));
    part->addWidget(save, 0, Qt::AlignRight);
    connect(save, &QPushButton::clicked, this, [this] { this->save(*drift_, tr("drift") + QStringLiteral(".svg")); });
    column->addWidget(drift_part_);
    return side;
}

} // namespace washfast::ui::curves
