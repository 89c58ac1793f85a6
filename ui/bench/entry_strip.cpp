#include "ui/bench/entry_strip.h"

#include "core/quantity/value_text.h"
#include "ui/bench/words.h"

#include <QComboBox>
#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLabel>
#include <QLineEdit>
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
        box->addItem(choice.label, choice.key);
    box->setAccessibleName(field.label);
    box->setToolTip(field.description);
    return box;
}

} // namespace

EntryStrip::EntryStrip(Desk& desk, const BenchModel& model, const Theme& theme, QWidget* parent)
    : QWidget(parent)
    , desk_(desk)
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
    , close_(new QToolButton(this))
{
    for (const auto& one : entries_) {
        if (one.starts_group && what_->count() > 0)
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
    under_->setFont(textFont(font(), TextSize::Small));
    under_->setTextFormat(Qt::PlainText);
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

    connect(what_, &QComboBox::currentIndexChanged, this, [this] { showTurn(); });
    connect(what_, &QComboBox::activated, this, [this] { line_->setFocus(); });
    connect(method_, &QComboBox::activated, this, [this] { line_->setFocus(); });
    connect(channel_, &QComboBox::activated, this, [this] { line_->setFocus(); });
    connect(close_, &QToolButton::clicked, this, &EntryStrip::finish);
    connect(&desk, &Desk::changed, this, [this] {
        if (isVisible())
            showTurn();
    });
    setTheme(theme);
}

const Entry& EntryStrip::entry() const
{
    const auto id = what_->currentData().toString();
    const auto it = std::find_if(entries_.begin(), entries_.end(), [&](const Entry& one) { return one.id == id; });
    return it == entries_.end() ? entries_.front() : *it;
}

QString EntryStrip::entryId() const
{
    return entry().id;
}

qint64 EntryStrip::print() const
{
    return entry().kind == Entry::Kind::Light || at_ >= prints_.size() ? 0 : prints_[at_];
}

QString EntryStrip::complaint() const
{
    return under_->isHidden() ? QString() : under_->text();
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

void EntryStrip::begin(const QString& entry_id, const QVector<qint64>& prints, const QString& typed)
{
    prints_ = prints;
    at_ = 0;
    taken_ = 0;
    complain({}, false);
    line_->clear();
    if (const int index = what_->findData(entry_id); index >= 0)
        what_->setCurrentIndex(index);
    showTurn();
    show();
    line_->setFocus(Qt::OtherFocusReason);
    if (!typed.isEmpty())
        line_->setText(typed);
}

void EntryStrip::showTurn()
{
    // A print that has been removed meanwhile has no turn.
    prints_.removeIf([this](qint64 id) { return model_.rowOf(id) < 0; });
    at_ = std::min(at_, std::max(0, int(prints_.size()) - 1));
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
    } else if (at_ < prints_.size()) {
        const auto code = model_.code(prints_[at_]);
        whom = prints_.size() == 1
            ? code
            : tr("%1  (%2 of %3)").arg(code, QString::number(at_ + 1), QString::number(prints_.size()));
        const auto so_far = displayText(*now.field, entered(desk_, prints_[at_], now), locale());
        so_far_->setText(so_far.isEmpty() ? QString() : tr("so far %1").arg(so_far));
    }
    auto strong = font();
    strong.setWeight(QFont::DemiBold);
    whom_->setFont(strong);
    whom_->setText(whom);
    line_->setAccessibleName(tr("%1, %2").arg(now.field->labelWithUnit(), whom));
    line_->setAccessibleDescription(tr("Enter takes it and goes on, Escape goes back to the table."));
    line_->setToolTip(now.field->description);
}

void EntryStrip::take()
{
    const auto& now = entry();
    const auto typed = line_->text().trimmed();
    if (typed.isEmpty()) { // leaves the print as it is
        complain({}, false);
        go(1);
        return;
    }
    const auto parsed = parseTyped(*now.field, typed, locale(), desk_.now().toDateTime());
    if (!parsed) {
        complain(parsed.error().says, true);
        line_->selectAll();
        return;
    }
    const auto whom = concerned();
    if (whom.isEmpty()) {
        complain(tr("No sheet is being exposed."), true);
        return;
    }
    const auto code = whom.size() == 1 ? model_.code(whom.front()) : BenchWords::prints(int(whom.size()));
    const bool done = desk_.perform(tr("%1, %2").arg(now.label, code), [&](store::Writer& writer) -> Outcome {
        for (const auto print : whom)
            if (auto written = writeEntry(writer, print, now, *parsed, method_->currentData().toString(),
                    channel_->currentData().toString(), desk_.now());
                !written)
                return written;
        return Done {};
    });
    if (!done)
        return; // the window says why; what was typed stays
    ++taken_;
    line_->clear();
    const auto number = parsed->number();
    const auto doubt
        = number && now.field->kind == Kind::Number ? outsideRange(*now.field, *number, locale()) : std::nullopt;
    complain(doubt ? tr("%1: %2").arg(code, *doubt) : QString(), false);
    go(1);
}

void EntryStrip::go(int steps)
{
    if (entry().kind == Entry::Kind::Light) {
        if (steps > 0)
            finish();
        return;
    }
    const int to = at_ + steps;
    if (to >= prints_.size()) {
        finish();
        return;
    }
    at_ = std::max(0, to);
    showTurn();
    Q_EMIT turned(print());
}

void EntryStrip::finish()
{
    if (taken_ > 0 && entry().kind == Entry::Kind::Light)
        Q_EMIT say(tr("The light reading was entered."));
    else if (taken_ > 0)
        Q_EMIT say(tr("%1 entered for %2.").arg(entry().label, BenchWords::prints(taken_)));
    line_->clear();
    hide();
    Q_EMIT closed();
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
        if (at_ + 1 < prints_.size())
            go(1);
        return true;
    default:
        return QWidget::eventFilter(watched, event);
    }
}

} // namespace washfast::ui
