#include "ui/sunlight/sunlight_view.h"

#include "ui/common/chart_export.h"
#include "ui/common/empty_state.h"
#include "ui/sunlight/day_sheet.h"
#include "ui/sunlight/plan_page.h"
#include "ui/sunlight/sky_bar.h"
#include "ui/sunlight/year_sheet.h"

#include <QClipboard>
#include <QGuiApplication>
#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>
#include <QSpinBox>
#include <QStackedWidget>
#include <QTabWidget>
#include <QTimeEdit>
#include <QVBoxLayout>

namespace washfast::ui {

using namespace sunlight;

namespace {

constexpr int usualHour = 10;
constexpr int usualWithin_min = 30;

QLabel* sentence(QWidget* parent)
{
    auto* label = new QLabel(parent);
    label->setTextFormat(Qt::PlainText);
    label->setWordWrap(true);
    label->setTextInteractionFlags(Qt::TextSelectableByMouse);
    return label;
}

} // namespace

SunlightView::SunlightView(const Services& services, QWidget* parent)
    : View(services, parent)
{
    auto* column = new QVBoxLayout(this);
    bar_ = new SkyBar(desk, look.theme(), this);
    buildCorner();
    column->addWidget(bar_);
    stack_ = new QStackedWidget(this);
    empty_ = new EmptyState(look.theme(), this);
    tabs_ = new QTabWidget(this);
    tabs_->setDocumentMode(true);
    plan_ = new PlanPage(desk, look.theme(), this);
    tabs_->addTab(buildDay(), tr("Day"));
    tabs_->addTab(buildYear(), tr("Year"));
    tabs_->addTab(plan_, tr("Lesson plan"));
    stack_->addWidget(empty_);
    stack_->addWidget(tabs_);
    column->addWidget(stack_, 1);

    connect(bar_, &SkyBar::changed, this, &SunlightView::showAgain);
    connect(plan_, &PlanPage::lengthChanged, this, &SunlightView::showAgain);
    connect(empty_, &EmptyState::actionTriggered, bar_, &SkyBar::typePlace);
    connect(tabs_, &QTabWidget::currentChanged, this, [this] { showAgain(); });
    const auto later = [this] {
        stale_ = true;
        plan_->forgetRates();
        if (isVisible())
            takeNews();
    };
    connect(&desk, &Desk::changed, this, later);
    connect(&desk, &Desk::reloaded, this, later);
    connect(&desk, &Desk::sessionChanged, this, [this, later] {
        begun_ = false;
        later();
    });
    connect(&look, &ThemeSource::changed, this, &SunlightView::followTheme);
    followTheme(look.theme());
}

void SunlightView::buildCorner()
{
    save_ = new QPushButton(tr("Sa&ve..."), this);
    save_->setToolTip(tr("The picture in front, as SVG, PDF or PNG."));
    save_->setAccessibleName(tr("Save the picture"));
    copy_ = new QPushButton(tr("Cop&y"), this);
    copy_->setAccessibleName(tr("Copy the picture"));
    bar_->corner()->addWidget(save_);
    bar_->corner()->addWidget(copy_);
    connect(save_, &QPushButton::clicked, this, &SunlightView::save);
    connect(copy_, &QPushButton::clicked, this, [this] {
        const auto problem = copyChart(*sheet(), *QGuiApplication::clipboard(), sheetTitle());
        Q_EMIT say(problem.isEmpty() ? tr("Copied as a picture.") : problem);
    });
}

QWidget* SunlightView::buildDay()
{
    auto* page = new QWidget(this);
    auto* column = new QVBoxLayout(page);
    column->setContentsMargins(6, 6, 6, 0);
    column->setSpacing(4);
    caution_ = sentence(page);
    caution_->setAccessibleName(tr("Caution for skin and eyes"));
    day_sheet_ = new DaySheet(look.theme(), page);
    readout_ = sentence(page);
    readout_->setAccessibleName(tr("The moment that is pointed at"));
    // Two lines are kept, so that the picture does not jump while the pointer moves.
    readout_->setMinimumHeight(2 * readout_->fontMetrics().lineSpacing());
    readout_->setAlignment(Qt::AlignLeft | Qt::AlignTop);
    about_ = sentence(page);
    about_->setAccessibleName(tr("About this day"));
    column->addWidget(caution_);
    column->addWidget(day_sheet_, 1);
    column->addWidget(readout_);
    column->addWidget(about_);
    connect(day_sheet_, &DaySheet::pointedAt, this, [this](const QString& words) {
        readout_->setText(
            words.isEmpty() ? tr("Point at a moment, or use the arrow keys, to read it in numbers.") : words);
    });
    return page;
}

QWidget* SunlightView::buildYear()
{
    auto* page = new QWidget(this);
    auto* column = new QVBoxLayout(page);
    column->setContentsMargins(6, 6, 6, 0);
    auto* row = new QHBoxLayout;
    hour_ = new QTimeEdit(QTime(usualHour, 0), page);
    hour_->setDisplayFormat(QStringLiteral("HH:mm"));
    hour_->setAccessibleName(tr("At this hour"));
    auto* hour_label = new QLabel(tr("&At:"), page);
    hour_label->setBuddy(hour_);
    within_ = new QSpinBox(page);
    within_->setRange(1, 240);
    within_->setValue(usualWithin_min);
    within_->setSuffix(tr(" min"));
    within_->setAccessibleName(tr("Done within"));
    auto* within_label = new QLabel(tr("done &within:"), page);
    within_label->setBuddy(within_);
    weeks_ = sentence(page);
    weeks_->setAccessibleName(tr("Weeks that can print"));
    for (QWidget* widget : std::initializer_list<QWidget*> { hour_label, hour_, within_label, within_ })
        row->addWidget(widget);
    row->addSpacing(10);
    row->addWidget(weeks_, 1);
    column->addLayout(row);
    year_sheet_ = new YearSheet(look.theme(), page);
    column->addWidget(year_sheet_, 1);
    year_readout_ = sentence(page);
    year_readout_->setAccessibleName(tr("The week and hour that is pointed at"));
    column->addWidget(year_readout_);
    connect(hour_, &QTimeEdit::timeChanged, this, &SunlightView::tellYear);
    connect(within_, &QSpinBox::valueChanged, this, &SunlightView::tellYear);
    connect(year_sheet_, &YearSheet::hourPicked, this, [this](int at) {
        hour_->setTime(QTime(at / YearState::rowsPerHour, at % YearState::rowsPerHour * 60 / YearState::rowsPerHour));
    });
    const auto read = [this](const QString& words) {
        year_readout_->setText(words.isEmpty() ? tr("Point at a week and an hour, or use the arrow keys.") : words);
    };
    connect(year_sheet_, &YearSheet::pointedAt, this, read);
    read({});
    return page;
}

void SunlightView::followTheme(const Theme& theme)
{
    bar_->setTheme(theme);
    empty_->setTheme(theme);
    day_sheet_->setTheme(theme);
    year_sheet_->setTheme(theme);
    plan_->setTheme(theme);
    auto quiet = readout_->palette();
    quiet.setColor(QPalette::WindowText, theme.quiet);
    about_->setPalette(quiet);
}

void SunlightView::arrive()
{
    takeNews();
    bar_->first()->setFocus();
}

void SunlightView::showPage(Page page)
{
    takeNews();
    tabs_->setCurrentIndex(int(page));
}

void SunlightView::takeNews()
{
    if (!stale_)
        return;
    stale_ = false;
    bar_->fill();
    if (!begun_) {
        begun_ = true;
        plan_->begin(desk.session().value);
        bar_->takeSession(desk.session().value); // shows it
    } else {
        showAgain();
    }
}

void SunlightView::showAgain()
{
    const auto ask = bar_->ask();
    save_->setEnabled(ask.has_value());
    copy_->setEnabled(ask.has_value());
    if (!ask) {
        const auto why = bar_->lacking();
        empty_->setContent(tr("Where is the sheet?"),
            tr("Here stand a day's ultraviolet, the minutes that a print needs, the weeks that can print, and a plan "
               "of the lesson. They need a place.")
                + (why.isEmpty() ? QString() : QLatin1Char(' ') + why)
                + (bar_->anySite()
                        ? QString()
                        : QLatin1Char(' ') + tr("Sites are kept on the Shelf; a place can also be typed here.")),
            tr("Type a place"));
        stack_->setCurrentWidget(empty_);
        return;
    }
    stack_->setCurrentWidget(tabs_);
    plan_->setAsk(*ask);
    switch (Page(tabs_->currentIndex())) {
    case Page::Day:
        return showDay(*ask);
    case Page::Year:
        return showYear(*ask);
    case Page::Plan:
        return;
    }
}

void SunlightView::showDay(const LightAsk& ask)
{
    const auto lesson = bar_->lesson() != 0 ? lessonOf(desk.notebook(), bar_->lesson(), plan_->length_min())
                                            : std::optional<LessonAsk>();
    const auto day = std::make_shared<const DayState>(ask, lesson);
    day_sheet_->setDay(day);
    if (!day_sheet_->current())
        day_sheet_->setCurrent({});
    caution_->setText(day->caution());
    about_->setText((QStringList { day->bestSentence() } + day->notes()).join(QLatin1Char(' ')));
}

void SunlightView::showYear(const LightAsk& ask)
{
    year_ = std::make_shared<const YearState>(ask);
    year_sheet_->setYear(year_);
    tellYear();
}

void SunlightView::tellYear()
{
    if (!year_)
        return;
    const int row
        = hour_->time().hour() * YearState::rowsPerHour + hour_->time().minute() * YearState::rowsPerHour / 60;
    year_sheet_->setHour(row);
    year_sheet_->setWithin(within_->value());
    weeks_->setText(year_->printableSentence(row, within_->value()));
}

PaintedSheet* SunlightView::sheet() const
{
    switch (Page(tabs_->currentIndex())) {
    case Page::Year:
        return year_sheet_;
    case Page::Plan:
        return plan_->sheet();
    case Page::Day:
        break;
    }
    return day_sheet_;
}

QString SunlightView::sheetTitle() const
{
    return sheet()->accessibleName();
}

void SunlightView::save()
{
    const std::array names { tr("sunlight-day"), tr("sunlight-year"), tr("lesson-plan") };
    const auto path = dialogs.saveFile(this, tr("Save the picture"),
        names[size_t(tabs_->currentIndex())] + QStringLiteral(".svg"), chartFileFilters());
    if (!path)
        return;
    if (const auto problem = saveChart(*sheet(), *path, sheetTitle()); !problem.isEmpty())
        dialogs.error(this, tr("The picture was not saved"), problem, *path);
    else
        Q_EMIT say(tr("Saved: %1").arg(*path));
}

} // namespace washfast::ui
