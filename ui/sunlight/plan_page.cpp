#include "ui/sunlight/plan_page.h"

#include "ui/common/offered.h"

#include <QButtonGroup>
#include <QCheckBox>
#include <QComboBox>
#include <QDoubleSpinBox>
#include <QFormLayout>
#include <QHBoxLayout>
#include <QLabel>
#include <QRadioButton>
#include <QScrollArea>
#include <QScrollBar>
#include <QSpinBox>
#include <QTextBrowser>
#include <QTimeEdit>
#include <QVBoxLayout>
#include <algorithm>

namespace washfast::ui::sunlight {

namespace {
constexpr int formWidth = 292;
} // namespace

PlanPage::PlanPage(Desk& desk, const Theme& theme, QWidget* parent)
    : QWidget(parent)
    , desk_(desk)
    , theme_(theme)
{
    auto* row = new QHBoxLayout(this);
    row->setContentsMargins(6, 6, 6, 6);
    row->addWidget(buildForm());
    row->addWidget(buildAnswer(), 1);
}

QSpinBox* PlanPage::count(QFormLayout& form, const QString& label, const char* field, int low, int high)
{
    auto* box = new QSpinBox(this);
    box->setRange(low, high);
    box->setAccessibleName(QString(label).remove(QLatin1Char('&')));
    form.addRow(label, box);
    connect(box, &QSpinBox::valueChanged, this, [this, field] { changed(field); });
    return box;
}

QWidget* PlanPage::buildForm()
{
    auto* area = new QScrollArea(this);
    area->setWidgetResizable(true);
    area->setFrameShape(QFrame::NoFrame);
    area->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    area->setFixedWidth(formWidth + area->verticalScrollBar()->sizeHint().width());
    area->setFocusPolicy(Qt::NoFocus);
    auto* page = new QWidget(area);
    auto* form = new QFormLayout(page);
    form->setContentsMargins(4, 4, 10, 4);
    form->setVerticalSpacing(5);
    form->setFieldGrowthPolicy(QFormLayout::AllNonFixedFieldsGrow);
    const auto named = [&](auto* widget, const QString& label) {
        widget->setAccessibleName(QString(label).remove(QLatin1Char('&')));
        form->addRow(label, widget);
        return widget;
    };
    starts_ = named(new QTimeEdit(page), tr("Starts a&t"));
    starts_->setDisplayFormat(QStringLiteral("HH:mm"));
    starts_->setTime(QTime(10, 0));
    connect(starts_, &QTimeEdit::timeChanged, this, [this] { changed("starts"); });
    length_ = count(*form, tr("Le&ngth"), "length", 10, 480);
    length_->setSuffix(tr(" min"));
    connect(length_, &QSpinBox::valueChanged, this, &PlanPage::lengthChanged);
    sheets_ = count(*form, tr("Sheets to &make"), "sheets", 1, 300);
    coaters_ = count(*form, tr("Coating at once"), "coaters", 1, 100);
    frames_ = count(*form, tr("Fra&mes"), "frames", 1, 200);
    trays_ = count(*form, tr("Sheets in the trays"), "trays", 1, 200);
    paper_ = named(new QComboBox(page), tr("&Paper"));
    paper_->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
    paper_->setMinimumContentsLength(8);
    connect(paper_, &QComboBox::currentIndexChanged, this, [this] { changed("paper"); });
    coat_ = named(new QDoubleSpinBox(page), tr("Coat"));
    coat_->setRange(1, 200);
    coat_->setDecimals(1);
    coat_->setSuffix(tr(" mL/m²"));
    connect(coat_, &QDoubleSpinBox::valueChanged, this, [this] { changed("coat"); });
    method_ = named(new QComboBox(page), tr("D&ries by"));
    for (const auto& choice : desk_.catalogue().columnField(Entity::Print, u"dry_method").choices)
        method_->addItem(choice.label, choice.key);
    method_->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
    method_->setMinimumContentsLength(8);
    connect(method_, &QComboBox::currentIndexChanged, this, [this] { changed("method"); });
    covered_ = new QCheckBox(tr("dries &under film"), page);
    form->addRow(QString(), covered_);
    connect(covered_, &QCheckBox::toggled, this, [this] { changed("covered"); });
    picture_ = named(new QComboBox(page), tr("Picture b&y"));
    picture_->addItem(tr("film negative"));
    picture_->addItem(tr("objects"));
    connect(picture_, &QComboBox::currentIndexChanged, this, [this] { changed("picture"); });
    hold_ = count(*form, tr("Hold in the dark"), "hold", 0, 480);
    hold_->setSuffix(tr(" min"));
    temperature_ = named(new QDoubleSpinBox(page), tr("Room"));
    temperature_->setAccessibleName(tr("Room temperature"));
    temperature_->setRange(0, 45);
    temperature_->setDecimals(1);
    temperature_->setSuffix(tr(" °C"));
    connect(temperature_, &QDoubleSpinBox::valueChanged, this, [this] { changed("temperature"); });
    humidity_ = count(*form, tr("Humidity"), "humidity", 1, 100);
    humidity_->setAccessibleName(tr("Room humidity"));
    humidity_->setSuffix(tr(" %"));
    area->setWidget(page);
    return area;
}

QWidget* PlanPage::buildAnswer()
{
    auto* page = new QWidget(this);
    auto* column = new QVBoxLayout(page);
    column->setContentsMargins(4, 0, 0, 0);
    answer_ = new QLabel(page);
    answer_->setWordWrap(true);
    answer_->setTextFormat(Qt::PlainText);
    answer_->setTextInteractionFlags(Qt::TextSelectableByMouse | Qt::TextSelectableByKeyboard);
    answer_->setAccessibleName(tr("Answer"));
    auto strong = textFont(font(), TextSize::Title);
    strong.setPointSizeF(strong.pointSizeF() * 0.85);
    answer_->setFont(strong);
    column->addWidget(answer_);
    choices_row_ = new QHBoxLayout;
    choices_row_->addStretch(1);
    column->addLayout(choices_row_);
    choices_ = new QButtonGroup(this);
    connect(choices_, &QButtonGroup::idClicked, this, [this](int which) { showPlan(size_t(which)); });
    sheet_ = new PlanSheet(theme_, page);
    column->addWidget(sheet_, 3);
    reasons_ = new QTextBrowser(page);
    reasons_->setAccessibleName(tr("Alternatives, reasons and what was taken for granted"));
    reasons_->setMinimumHeight(110);
    reasons_->setTabChangesFocus(true);
    column->addWidget(reasons_, 2);
    return page;
}

QWidget* PlanPage::first() const
{
    return starts_;
}

double PlanPage::length_min() const
{
    return length_->value();
}

void PlanPage::fillPapers(const QString& paper)
{
    paper_->clear();
    paper_->addItem(tr("any paper"), QString());
    const auto& table = desk_.notebook().table(Entity::Paper);
    for (int row = 0; row < table.rows(); ++row) {
        const auto name = desk_.notebook().nameOf({ Entity::Paper, table.id(row) });
        if (name == paper || !isRetired(desk_.notebook(), { Entity::Paper, table.id(row) }))
            paper_->addItem(name, name);
    }
    paper_->setCurrentIndex(std::max(0, paper_->findData(paper)));
}

void PlanPage::begin(qint64 session)
{
    filling_ = true;
    const auto defaults = planDefaults(desk_.reader(), session);
    const auto& input = defaults.input;
    missing_ = defaults.missing;
    starts_->setTime(defaults.starts.value_or(QTime(10, 0)));
    length_->setValue(int(input.lesson_min));
    sheets_->setValue(input.sheets);
    coaters_->setValue(input.coaters);
    frames_->setValue(input.frames);
    trays_->setValue(input.trays);
    fillPapers(input.paper);
    coat_->setValue(input.coat_ml_m2);
    method_->setCurrentIndex(std::max(0, method_->findData(input.dry_method)));
    covered_->setChecked(input.dried_covered);
    picture_->setCurrentIndex(input.film ? 0 : 1);
    hold_->setValue(int(input.hold_min));
    temperature_->setValue(input.room.temperature_c);
    humidity_->setValue(int(input.room.humidity_pct));
    filling_ = false;
    planAgain();
}

drying::LessonInput PlanPage::asked() const
{
    drying::LessonInput input;
    input.lesson_min = length_->value();
    input.sheets = sheets_->value();
    input.coaters = coaters_->value();
    input.frames = frames_->value();
    input.trays = trays_->value();
    input.room = { temperature_->value(), double(humidity_->value()) };
    input.paper = paper_->currentData().toString();
    input.dry_method = method_->currentData().toString();
    input.coat_ml_m2 = coat_->value();
    input.dried_covered = covered_->isChecked();
    input.film = picture_->currentIndex() == 0;
    input.hold_min = hold_->value();
    return input;
}

void PlanPage::setAsk(const LightAsk& ask)
{
    ask_ = ask;
    planAgain();
}

void PlanPage::changed(const char* field)
{
    if (filling_)
        return;
    std::erase_if(missing_, [&](const auto& one) { return one.first == QLatin1String(field); });
    planAgain();
}

void PlanPage::showEvent(QShowEvent* event)
{
    QWidget::showEvent(event);
    if (stale_)
        planAgain();
}

void PlanPage::planAgain()
{
    stale_ = !isVisible();
    if (stale_ || filling_ || !ask_)
        return;
    if (!rates_)
        rates_ = drying::LearntRates::of(desk_.reader());
    QStringList missing;
    for (const auto& one : missing_)
        missing << one.second;
    plan_ = std::make_shared<PlanState>(*ask_, starts_->time(), asked(), *rates_, missing);
    answer_->setText(plan_->answer());
    reasons_->setHtml(plan_->reasons());
    showChoices();
    showPlan(size_t(std::max(0, choices_->checkedId())));
}

void PlanPage::showChoices()
{
    // Only when there are others: the buttons are kept while their number stays.
    const auto& shown = plan_->shown();
    const auto wanted = shown.size() > 1 ? int(shown.size()) : 0;
    while (choices_->buttons().size() > wanted)
        delete choices_->buttons().constLast();
    while (choices_->buttons().size() < wanted) {
        const int id = int(choices_->buttons().size());
        auto* button = new QRadioButton(this);
        choices_->addButton(button, id);
        choices_row_->insertWidget(id, button);
        button->setChecked(id == 0);
    }
    for (int id = 0; id < wanted; ++id) {
        auto* button = choices_->button(id);
        button->setText(id == 0 ? shown[0].title : tr("Instead &%1: %2").arg(id).arg(shown[size_t(id)].short_title));
        button->setToolTip(shown[size_t(id)].title);
        button->setAccessibleName(shown[size_t(id)].title);
    }
}

void PlanPage::showPlan(size_t which)
{
    if (!plan_)
        return;
    which = std::min(which, plan_->shown().size() - 1);
    if (auto* button = choices_->button(int(which)))
        button->setChecked(true);
    sheet_->setPlan(plan_, which);
}

void PlanPage::setTheme(const Theme& theme)
{
    theme_ = theme;
    sheet_->setTheme(theme);
}

} // namespace washfast::ui::sunlight
