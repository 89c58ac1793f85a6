#include "ui/common/field_editor.h"

#include "core/quantity/value_text.h"

#include <QAbstractItemView>
#include <QComboBox>
#include <QEvent>
#include <QGridLayout>
#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLabel>
#include <QLineEdit>
#include <QPointer>
#include <QPushButton>
#include <QVBoxLayout>
#include <tuple>

namespace washfast::ui {

namespace {

constexpr int choicesInRow = 4;
constexpr int widestNumber = 130;
constexpr int widestTime = 210;
constexpr int narrowestBox = 120;
const QString checkMark = QStringLiteral("✓ ");

} // namespace

FieldEditor::FieldEditor(const Field& field, FieldContext context, const Theme& theme, QWidget* parent)
    : QWidget(parent)
    , field_(field)
    , context_(std::move(context))
    , theme_(theme)
{
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(1);
    auto* row = new QHBoxLayout;
    row->setSpacing(6);
    column->addLayout(row);
    const bool named = field.kind == Kind::Text && field.identity;
    if (field.kind == Kind::ChoiceSet)
        buildSet(*row);
    else if (field.kind == Kind::Choice || field.kind == Kind::YesNo || named)
        buildBox(*row, named);
    else
        buildLine(*row);
    unit_ = new QLabel(field.unit, this);
    unit_->setVisible(!field.unit.isEmpty());
    row->addWidget(unit_);
    if (field.kind != Kind::Text)
        row->addStretch(1);
    under_ = new QLabel(this);
    under_->setWordWrap(true);
    under_->hide();
    column->addWidget(under_);

    if (set_.empty()) {
        input()->setAccessibleName(field.labelWithUnit());
        input()->setAccessibleDescription(field.description);
    }
    input()->setToolTip(field.description);
    input()->installEventFilter(this);
    setFocusProxy(input());
    setTheme(theme);
}

void FieldEditor::buildSet(QHBoxLayout& row)
{
    auto* grid = new QGridLayout;
    grid->setSpacing(4);
    int at = 0;
    for (const auto& choice : field_.choices) {
        auto* button = new QPushButton(checkMark + choice.label, this);
        button->setMinimumWidth(button->sizeHint().width()); // the mark comes and goes without moving the others
        button->setText(choice.label);
        button->setCheckable(true);
        button->setAutoDefault(false);
        button->setAccessibleName(field_.label + QStringLiteral(": ") + choice.label);
        connect(button, &QPushButton::clicked, this, &FieldEditor::takeSet);
        grid->addWidget(button, at / choicesInRow, at % choicesInRow);
        set_.push_back(button);
        ++at;
    }
    row.addLayout(grid);
}

void FieldEditor::buildBox(QHBoxLayout& row, bool named)
{
    box_ = new QComboBox(this);
    box_->setEditable(named);
    box_->setInsertPolicy(QComboBox::NoInsert);
    box_->setMinimumWidth(narrowestBox);
    box_->setSizeAdjustPolicy(QComboBox::AdjustToContents);
    connect(box_, &QComboBox::activated, this, [this] { take(); });
    fillChoices();
    row.addWidget(box_);
}

void FieldEditor::buildLine(QHBoxLayout& row)
{
    line_ = new QLineEdit(this);
    if (field_.kind == Kind::Number) {
        line_->setMaximumWidth(widestNumber);
        line_->setAlignment(figureAlignment);
    } else if (field_.kind == Kind::Time) {
        line_->setFixedWidth(widestTime);
        line_->setPlaceholderText(tr("time, or date and time"));
    }
    row.addWidget(line_);
}

QWidget* FieldEditor::input() const
{
    if (line_)
        return line_;
    if (box_)
        return box_;
    return set_.front();
}

QWidget* FieldEditor::orderAfter(QWidget* before) const
{
    if (set_.empty()) {
        setTabOrder(before, input());
        return input();
    }
    for (auto* button : set_) {
        setTabOrder(before, button);
        before = button;
    }
    return before;
}

void FieldEditor::fillChoices()
{
    box_->clear();
    box_->addItem(QStringLiteral("–"), QString());
    if (field_.kind == Kind::YesNo) {
        box_->addItem(tr("yes"), QStringLiteral("yes"));
        box_->addItem(tr("no"), QStringLiteral("no"));
    } else if (field_.kind == Kind::Choice) {
        for (const auto& choice : field_.choices)
            box_->addItem(choice.label, choice.key);
    } else if (context_.names) {
        box_->setItemText(0, QString());
        for (const auto& name : context_.names(field_.entity))
            box_->addItem(name, name);
    }
}

QString FieldEditor::boxText() const
{
    return mixed_ ? QString() : isoText(field_, shown_.value);
}

bool FieldEditor::typing() const
{
    if (giving_)
        return false;
    if (line_)
        return line_->isModified();
    return box_ && box_->isEditable() && box_->currentText() != boxText();
}

void FieldEditor::show(const Known& value, bool mixed)
{
    if (typing()) {
        waiting_ = { value, mixed };
        return;
    }
    giving_ = false;
    shown_ = value;
    mixed_ = mixed;
    display();
}

void FieldEditor::drop()
{
    if (waiting_)
        std::tie(shown_, mixed_) = *waiting_;
    display();
    Q_EMIT dropped();
}

void FieldEditor::display()
{
    waiting_.reset();
    complain({}, false);
    if (line_) {
        line_->setText(mixed_ ? QString() : editText(field_, shown_, locale()));
        if (field_.kind != Kind::Time)
            line_->setPlaceholderText(mixed_ ? tr("several") : QString());
        else
            line_->setPlaceholderText(mixed_ ? tr("several") : tr("time, or date and time"));
        line_->setModified(false);
        if (const auto number = shown_.number(); number && field_.kind == Kind::Number && !mixed_)
            complain(outsideRange(field_, *number, locale()).value_or(QString()), false);
    } else if (box_) {
        if (box_->isEditable() && !box_->hasFocus())
            fillChoices();
        if (box_->isEditable()) {
            // A retired one is offered only where it is set already.
            if (const auto set = boxText(); !set.isEmpty() && box_->findText(set) < 0)
                box_->insertItem(1, set, set);
            // Without its own place in the list the box would give the name as chosen when it is merely left.
            box_->setCurrentIndex(qMax(0, box_->findText(boxText())));
            box_->setEditText(boxText());
        } else
            box_->setCurrentIndex(mixed_ ? -1 : qMax(0, box_->findData(boxText())));
        box_->setPlaceholderText(mixed_ ? tr("several") : QString());
    } else {
        const auto keys = splitSet(shown_.text().value_or(QString()));
        for (size_t i = 0; i < set_.size(); ++i)
            set_[i]->setChecked(!mixed_ && keys.contains(field_.choices[i].key));
        markSet();
    }
}

void FieldEditor::markSet()
{
    auto chosen = palette();
    for (const auto group : { QPalette::Active, QPalette::Inactive, QPalette::Disabled }) {
        chosen.setColor(group, QPalette::Button, theme_.blue);
        chosen.setColor(group, QPalette::ButtonText, theme_.onBlue);
    }
    for (size_t i = 0; i < set_.size(); ++i) {
        const bool on = set_[i]->isChecked();
        set_[i]->setText((on ? checkMark : QString()) + field_.choices[i].label);
        set_[i]->setPalette(on ? chosen : QPalette());
    }
}

void FieldEditor::takeSet()
{
    QStringList keys;
    for (size_t i = 0; i < set_.size(); ++i)
        if (set_[i]->isChecked())
            keys << field_.choices[i].key;
    markSet();
    Known known;
    if (!keys.isEmpty())
        known = { Value(joinSet(field_, keys)), field_.nature };
    if (known.value != shown_.value || mixed_)
        give(known);
}

bool FieldEditor::commit()
{
    return !typing() || take();
}

bool FieldEditor::take()
{
    const auto typed = line_ ? line_->text()
        : box_->isEditable() ? box_->currentText().trimmed()
                             : box_->currentData().toString();
    const auto parsed = parseTyped(field_, typed, locale(), context_.now ? context_.now().toDateTime() : QDateTime());
    if (!parsed) {
        complain(parsed.error().says, true);
        return false;
    }
    const bool same = parsed->value == shown_.value && (!parsed->has() || parsed->evidence == shown_.evidence);
    if (same && !mixed_) {
        drop(); // back to what it was, or to what has come meanwhile
        return true;
    }
    give(*parsed);
    return true;
}

void FieldEditor::give(const Known& value)
{
    const QPointer<FieldEditor> here(this);
    waiting_.reset(); // the owner knows better by then
    giving_ = true;
    Q_EMIT entered(value);
    if (here && giving_) { // nothing came of it
        giving_ = false;
        display();
    }
}

void FieldEditor::setReadOnly(bool readOnly)
{
    if (line_)
        line_->setReadOnly(readOnly);
    else if (box_)
        box_->setEnabled(!readOnly);
    for (auto* button : set_)
        button->setEnabled(!readOnly);
}

void FieldEditor::setTheme(const Theme& theme)
{
    theme_ = theme;
    auto colours = unit_->palette();
    colours.setColor(QPalette::WindowText, theme.quiet);
    unit_->setPalette(colours);
    colourUnder(remarked_ ? theme.quiet : theme.rust);
    under_->setFont(textFont(font(), TextSize::Small));
    markSet();
}

QString FieldEditor::complaint() const
{
    return under_->isHidden() ? QString() : under_->text();
}

void FieldEditor::colourUnder(const QColor& colour)
{
    auto colours = under_->palette();
    colours.setColor(QPalette::WindowText, colour);
    under_->setPalette(colours);
}

void FieldEditor::remark(const QString& sentence)
{
    remarked_ = true;
    colourUnder(theme_.quiet);
    under_->setText(sentence);
    under_->setVisible(!sentence.isEmpty());
}

void FieldEditor::complain(const QString& sentence, bool wrong)
{
    if (remarked_)
        colourUnder(theme_.rust);
    remarked_ = false;
    under_->setText(sentence.isEmpty() ? QString() : (wrong ? QStringLiteral("✕ ") : QStringLiteral("! ")) + sentence);
    under_->setVisible(!sentence.isEmpty());
}

bool FieldEditor::eventFilter(QObject* watched, QEvent* event)
{
    if (watched != input())
        return QWidget::eventFilter(watched, event);
    switch (event->type()) {
    case QEvent::FocusOut:
        // A menu or list of its own leaves the typing where it is; a choice is committed when it is made.
        if (static_cast<QFocusEvent*>(event)->reason() != Qt::PopupFocusReason && typing())
            commit();
        break;
    case QEvent::Wheel:
        // Scrolling a form must not turn over the choices in it.
        if (box_) {
            event->ignore();
            return true;
        }
        break;
    case QEvent::ShortcutOverride:
        // With nothing typed, undo and redo are the notebook's.
        if (const auto& key = *static_cast<QKeyEvent*>(event);
            !typing() && (key.matches(QKeySequence::Undo) || key.matches(QKeySequence::Redo))) {
            event->ignore();
            return true;
        }
        break;
    case QEvent::KeyPress:
        if (keyPressed(*static_cast<QKeyEvent*>(event)))
            return true;
        break;
    default:
        break;
    }
    return QWidget::eventFilter(watched, event);
}

bool FieldEditor::keyPressed(const QKeyEvent& key)
{
    if ((key.key() == Qt::Key_Return || key.key() == Qt::Key_Enter) && set_.empty()) {
        if (commit())
            focusNextChild();
        return true;
    }
    if (key.key() == Qt::Key_Escape && typing()) {
        drop();
        return true;
    }
    return false;
}

void FieldEditor::hideEvent(QHideEvent* event)
{
    // Whoever closes a form or the window has typed what stands there.
    if (!event->spontaneous() && typing())
        commit();
    QWidget::hideEvent(event);
}

} // namespace washfast::ui
