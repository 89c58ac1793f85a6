#include "ui/bench/entry_strip.h"

#include "core/quantity/value_text.h"
#include "ui/bench/words.h"

#include <QComboBox>
#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLabel>
#include <QLineEdit>
#include <QSignalBlocker>
#include <QToolButton>
#include <algorithm>

namespace washfast::ui {

namespace {

constexpr int lineWidth = 110;
constexpr int mostListed = 18;

QComboBox* choiceBox(const Field& field, const QString& unsaid, QWidget* parent)
{
    auto* box = new QComboBox(parent);
    box->addItem(unsaid, QString());
    for (const auto& choice : field.choices)
        if (choice.key != nothingToReadKey()) // a number was read; typing - says that there is none
            box->addItem(choice.label, choice.key);
    box->setAccessibleName(field.label);
    box->setToolTip(field.description);
    return box;
}

} // namespace

EntryStrip::EntryStrip(Desk& desk, Dialogs& dialogs, const BenchModel& model, const Theme& theme, QWidget* parent)
    : QWidget(parent)
    , desk_(desk)
    , dialogs_(dialogs)
    , model_(model)
    , theme_(theme)
    , entries_(entriesOf(desk.catalogue()))
    , what_(new QComboBox(this))
    , method_(choiceBox(desk.catalogue().columnField(Entity::Reading, u"reading_method"), tr("read by..."), this))
    , channel_(choiceBox(desk.catalogue().columnField(Entity::Reading, u"reading_channel"), tr("channel..."), this))
    , whom_(new QLabel(this))
    , line_(new QLineEdit(this))
    , unit_(new QLabel(this))
    , so_far_(new QLabel(this))
    , under_(new QLabel(this))
    , hint_(new QLabel(this))
    , close_(new QToolButton(this))
{
    build();
    listen();
    setTheme(theme);
}

EntryStrip::~EntryStrip()
{
    endRun();
}

void EntryStrip::build()
{
    what_->addItem(tr("What is missing on each row"), missingId());
    for (const auto& one : entries_) {
        if (one.starts_group || &one == &entries_.front())
            what_->insertSeparator(what_->count());
        what_->addItem(one.field->unit.isEmpty() ? one.label : tr("%1 [%2]").arg(one.label, one.field->unit), one.id);
    }
    what_->setMaxVisibleItems(mostListed);
    what_->setAccessibleName(tr("What is entered row by row"));
    what_->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
    what_->setMinimumContentsLength(26);
    line_->setFixedWidth(lineWidth);
    line_->setAlignment(figureAlignment);
    line_->installEventFilter(this);
    close_->setText(QStringLiteral("✕"));
    close_->setAccessibleName(tr("Back to the table"));
    close_->setToolTip(tr("Back to the table (Escape)"));
    for (auto* label : { under_, hint_ }) {
        label->setFont(textFont(font(), TextSize::Small));
        label->setTextFormat(Qt::PlainText);
        label->setWordWrap(true);
    }
    under_->hide();
    so_far_->setTextFormat(Qt::PlainText);

    auto* row = new QHBoxLayout;
    row->setSpacing(8);
    row->addWidget(what_);
    row->addWidget(method_);
    row->addWidget(channel_);
    row->addSpacing(8);
    row->addWidget(whom_);
    row->addWidget(line_);
    row->addWidget(unit_);
    row->addWidget(so_far_);
    row->addStretch(1);
    row->addWidget(close_);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(4, 6, 4, 6);
    column->setSpacing(2);
    column->addLayout(row);
    column->addWidget(under_);
    column->addWidget(hint_);
}

void EntryStrip::listen()
{
    connect(what_, &QComboBox::currentIndexChanged, this, &EntryStrip::changeWhat);
    connect(what_, &QComboBox::activated, this, [this] { line_->setFocus(); });
    for (auto* box : { method_, channel_ }) {
        connect(box, &QComboBox::currentIndexChanged, this, &EntryStrip::showTurn);
        connect(box, &QComboBox::activated, this, [this] { line_->setFocus(); });
    }
    connect(close_, &QToolButton::clicked, this, &EntryStrip::finish);
    connect(&desk_, &Desk::changed, this, [this] {
        if (isVisible())
            showTurn();
    });
}

QString EntryStrip::missingId()
{
    return QStringLiteral("missing");
}

const Entry* EntryStrip::find(const QString& id) const
{
    const auto it = std::find_if(entries_.begin(), entries_.end(), [&](const Entry& one) { return one.id == id; });
    return it == entries_.end() ? nullptr : &*it;
}

const Entry& EntryStrip::entry() const
{
    auto id = what_->currentData().toString();
    if (id == missingId() && at_ < int(turns_.size()))
        id = turns_[size_t(at_)].entry_id;
    const auto* found = find(id);
    return found ? *found : entries_.front();
}

QString EntryStrip::entryId() const
{
    return entry().id;
}

ReadHow EntryStrip::readHow() const
{
    return { method_->currentData().toString(), channel_->currentData().toString() };
}

qint64 EntryStrip::print() const
{
    return entry().kind == Entry::Kind::Light || at_ >= int(turns_.size()) ? 0 : turns_[size_t(at_)].print;
}

QString EntryStrip::complaint() const
{
    return under_->isHidden() ? QString() : under_->text();
}

QString EntryStrip::hint() const
{
    return hint_->isHidden() ? QString() : hint_->text();
}

QVector<qint64> EntryStrip::concerned() const
{
    if (entry().kind != Entry::Kind::Light)
        return print() > 0 ? QVector<qint64> { print() } : QVector<qint64> {};
    QVector<qint64> exposed;
    for (const auto id : model_.prints())
        if (stateAt(model_.states(model_.rowOf(id)), Station::Expose).stage == Stage::Running)
            exposed << id;
    return exposed;
}

void EntryStrip::begin(const RunWanted& wanted, const QString& typed)
{
    endRun();
    wanted_ = wanted;
    auto run
        = runOf(desk_, wanted_, [this](qint64 id) -> const SheetStates& { return model_.states(model_.rowOf(id)); });
    complete_ = run.complete;
    const auto id = run.mixed() || run.turns.empty() ? missingId() : run.turns.front().entry_id;
    turns_ = std::move(run.turns);
    {
        const QSignalBlocker quiet(what_);
        what_->setCurrentIndex(std::max(0, what_->findData(id)));
    }
    open(typed);
}

void EntryStrip::beginLight()
{
    endRun();
    wanted_ = {};
    turns_.clear();
    complete_ = 0;
    {
        const QSignalBlocker quiet(what_);
        what_->setCurrentIndex(what_->findData(lightId()));
    }
    open({});
}

void EntryStrip::open(const QString& typed)
{
    at_ = 0;
    light_taken_ = false;
    complain({}, false);
    line_->clear();
    showTurn();
    show();
    line_->setFocus(Qt::OtherFocusReason);
    if (!typed.isEmpty())
        line_->setText(typed);
}

/// The person says what is to be entered: for all the prints, or again what each of them lacks.
void EntryStrip::changeWhat()
{
    const auto id = what_->currentData().toString();
    const auto here = at_ < int(turns_.size()) ? turns_[size_t(at_)].print : 0;
    answer_ = Answer::NotAsked; // it was about something else
    if (id != lightId() && !wanted_.prints.isEmpty()) {
        EntryRun run;
        if (id == missingId())
            run = runOf(
                desk_, wanted_, [this](qint64 one) -> const SheetStates& { return model_.states(model_.rowOf(one)); });
        else
            for (const auto print : std::as_const(wanted_.prints))
                run.turns.push_back({ print, id });
        turns_ = std::move(run.turns);
        complete_ = run.complete;
        const auto at
            = std::find_if(turns_.begin(), turns_.end(), [&](const EntryTurn& turn) { return turn.print == here; });
        at_ = at == turns_.end() ? 0 : int(at - turns_.begin());
    }
    showTurn();
    if (print() > 0)
        Q_EMIT turned(print());
}

void EntryStrip::showTurn()
{
    // A print that has been removed meanwhile has no turn.
    std::erase_if(turns_, [this](const EntryTurn& turn) { return model_.rowOf(turn.print) < 0; });
    wanted_.prints.removeIf([this](qint64 id) { return model_.rowOf(id) < 0; });
    at_ = std::min(at_, std::max(0, int(turns_.size()) - 1));
    const auto& now = entry();
    const bool density = now.kind == Entry::Kind::Reading;
    method_->setVisible(density);
    channel_->setVisible(density);
    unit_->setText(now.field->unit);
    unit_->setVisible(!now.field->unit.isEmpty());
    QString whom;
    if (now.kind == Entry::Kind::Light) {
        whom = BenchWords::prints(int(concerned().size()));
        so_far_->clear();
    } else if (at_ < int(turns_.size())) {
        const auto code = model_.code(print());
        whom = turns_.size() == 1
            ? code
            : tr("%1  (%2 of %3)").arg(code, QString::number(at_ + 1), QString::number(turns_.size()));
        const auto held = heldBy(desk_, print(), now, readHow());
        const auto so_far = displayText(*now.field, held.value, locale());
        so_far_->setText(so_far.isEmpty() ? QString()
                : held.source.isEmpty()   ? tr("so far %1").arg(so_far)
                                          : tr("so far %1 (%2)").arg(so_far, held.source));
    }
    auto strong = font();
    strong.setWeight(QFont::DemiBold);
    whom_->setFont(strong);
    whom_->setText(whom);
    showHint();
    line_->setAccessibleName(tr("%1, %2").arg(now.label, whom));
    line_->setAccessibleDescription(
        tr("Enter takes it and goes on, Escape goes back to the table.") + QLatin1Char(' ') + hint_->text());
    line_->setToolTip(now.field->description);
}

void EntryStrip::showHint()
{
    const auto& now = entry();
    QStringList all;
    if (now.kind != Entry::Kind::Light && at_ < int(turns_.size())) {
        const auto& turn = turns_[size_t(at_)];
        if (what_->currentData().toString() == missingId())
            all << tr("%1 lacks this: %2.").arg(model_.code(turn.print), now.label);
        if (turn.early && turn.entry_id == now.id)
            all << tr("This reading is due from %1; it is recorded as read a day after all the same.")
                       .arg(locale().toString(turn.early->toDateTime().date(), QLocale::ShortFormat));
        if (now.id == readId(QStringLiteral("day_after"), QStringLiteral("deepest")))
            all << tr("Type - when there is nothing to read.");
        if (complete_ > 0)
            all << tr("Left out because nothing is missing: %1.").arg(BenchWords::prints(complete_));
        if (!so_far_->text().isEmpty() && !isOwn(turn.print, now))
            all << tr("What is recorded is only replaced if you say so.");
        if (turns_.size() > 1)
            all << tr("Escape keeps what was entered; Ctrl+Z then takes back all of it.");
    }
    hint_->setText(all.join(QLatin1Char(' ')));
    hint_->setVisible(!all.isEmpty());
}

void EntryStrip::go(int steps)
{
    if (entry().kind == Entry::Kind::Light) {
        if (steps > 0)
            finish();
        return;
    }
    const int to = at_ + steps;
    if (to >= int(turns_.size())) {
        finish();
        return;
    }
    at_ = std::max(0, to);
    showTurn();
    Q_EMIT turned(print());
}

void EntryStrip::hideEvent(QHideEvent* event)
{
    QWidget::hideEvent(event);
    if (isHidden()) // not because another view is shown
        endRun();
}

void EntryStrip::complain(const QString& sentence, bool wrong)
{
    under_->setText(sentence.isEmpty() ? QString() : (wrong ? QStringLiteral("✕ ") : QStringLiteral("! ")) + sentence);
    under_->setVisible(!sentence.isEmpty());
}

void EntryStrip::setTheme(const Theme& theme)
{
    theme_ = theme;
    auto colours = palette();
    colours.setColor(QPalette::WindowText, theme.quiet);
    unit_->setPalette(colours);
    so_far_->setPalette(colours);
    hint_->setPalette(colours);
    colours.setColor(QPalette::WindowText, theme.rust);
    under_->setPalette(colours);
}

bool EntryStrip::eventFilter(QObject* watched, QEvent* event)
{
    if (watched != line_)
        return QWidget::eventFilter(watched, event);
    const auto* key = event->type() == QEvent::KeyPress || event->type() == QEvent::ShortcutOverride
        ? static_cast<QKeyEvent*>(event)
        : nullptr;
    // An empty line has nothing to undo: the last number is meant, and the window takes it back.
    if (key && event->type() == QEvent::ShortcutOverride && line_->text().isEmpty()
        && (key->matches(QKeySequence::Undo) || key->matches(QKeySequence::Redo))) {
        event->ignore();
        return true;
    }
    if (!key || event->type() != QEvent::KeyPress)
        return QWidget::eventFilter(watched, event);
    switch (key->key()) {
    case Qt::Key_Return:
    case Qt::Key_Enter:
        take();
        return true;
    case Qt::Key_Escape:
        finish();
        return true;
    case Qt::Key_Up:
        go(-1);
        return true;
    case Qt::Key_Down:
        if (at_ + 1 < int(turns_.size()))
            go(1);
        return true;
    default:
        return QWidget::eventFilter(watched, event);
    }
}

} // namespace washfast::ui
