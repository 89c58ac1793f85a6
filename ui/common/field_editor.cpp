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
#include <QPushButton>
#include <QVBoxLayout>

namespace washfast::ui {

namespace {
constexpr int choicesInRow = 4;
constexpr int widestNumber = 130;
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
    if (field.kind == Kind::ChoiceSet) {
        auto* grid = new QGridLayout;
        grid->setSpacing(4);
        int at = 0;
        for (const auto& choice : field.choices) {
            auto* button = new QPushButton(choice.label, this);
            button->setCheckable(true);
            button->setAutoDefault(false);
            button->setAccessibleName(field.label + QStringLiteral(": ") + choice.label);
            connect(button, &QPushButton::clicked, this, &FieldEditor::takeSet);
            grid->addWidget(button, at / choicesInRow, at % choicesInRow);
            set_.push_back(button);
            ++at;
        }
        row->addLayout(grid);
    } else if (field.kind == Kind::Choice || field.kind == Kind::YesNo || named) {
        box_ = new QComboBox(this);
        box_->setEditable(named);
        box_->setInsertPolicy(QComboBox::NoInsert);
        box_->setMinimumWidth(120);
        box_->setSizeAdjustPolicy(QComboBox::AdjustToContents);
        connect(box_, &QComboBox::activated, this, [this] { commit(); });
        fillChoices();
        row->addWidget(box_);
    } else {
        line_ = new QLineEdit(this);
        if (field.kind == Kind::Number) {
            line_->setMaximumWidth(widestNumber);
            line_->setAlignment(figureAlignment);
        }
        row->addWidget(line_);
    }
    unit_ = new QLabel(field.unit, this);
    unit_->setVisible(!field.unit.isEmpty());
    row->addWidget(unit_);
    if (field.kind != Kind::Text)
        row->addStretch(1);
    under_ = new QLabel(this);
    under_->setWordWrap(true);
    under_->hide();
    column->addWidget(under_);

    input()->setAccessibleName(field.labelWithUnit());
    input()->setAccessibleDescription(field.description);
    input()->setToolTip(field.description);
    input()->installEventFilter(this);
    setFocusProxy(input());
    setTheme(theme);
}

QWidget* FieldEditor::input() const
{
    if (line_)
        return line_;
    if (box_)
        return box_;
    return set_.front();
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

void FieldEditor::show(const Known& value, bool mixed)
{
    const bool typing = line_ && line_->hasFocus() && line_->isModified();
    shown_ = value;
    mixed_ = mixed;
    if (typing)
        return;
    complain({}, false);
    if (line_) {
        line_->setText(mixed ? QString() : editText(field_, value, locale()));
        line_->setPlaceholderText(mixed ? tr("several") : QString());
        line_->setModified(false);
        if (const auto number = value.number(); number && field_.kind == Kind::Number && !mixed)
            complain(outsideRange(field_, *number, locale()).value_or(QString()), false);
    } else if (box_) {
        if (box_->isEditable() && !box_->hasFocus())
            fillChoices();
        const auto key = isoText(field_, value.value);
        if (box_->isEditable())
            box_->setEditText(mixed ? QString() : key);
        else
            box_->setCurrentIndex(mixed ? -1 : qMax(0, box_->findData(key)));
        box_->setPlaceholderText(mixed ? tr("several") : QString());
    } else {
        const auto keys = splitSet(value.text().value_or(QString()));
        for (size_t i = 0; i < set_.size(); ++i)
            set_[i]->setChecked(!mixed && keys.contains(field_.choices[i].key));
    }
}

void FieldEditor::takeSet()
{
    QStringList keys;
    for (size_t i = 0; i < set_.size(); ++i)
        if (set_[i]->isChecked())
            keys << field_.choices[i].key;
    Known known;
    if (!keys.isEmpty())
        known = { Value(joinSet(field_, keys)), field_.nature };
    if (known.value != shown_.value || mixed_)
        Q_EMIT entered(known);
}

bool FieldEditor::commit()
{
    if (!set_.empty())
        return true;
    QString typed;
    if (line_) {
        if (!line_->isModified())
            return true;
        typed = line_->text();
    } else if (box_->isEditable()) {
        typed = box_->currentText().trimmed();
    } else {
        if (box_->currentIndex() < 0)
            return true;
        typed = box_->currentData().toString();
    }
    const auto parsed = parseTyped(field_, typed, locale(), context_.now ? context_.now().toDateTime() : QDateTime());
    if (!parsed) {
        complain(parsed.error().says, true);
        return false;
    }
    complain({}, false);
    if (line_)
        line_->setModified(false);
    const bool same = parsed->value == shown_.value && (!parsed->has() || parsed->evidence == shown_.evidence);
    if (!same || mixed_)
        Q_EMIT entered(*parsed);
    else if (line_)
        line_->setText(editText(field_, shown_, locale()));
    return true;
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
    colours.setColor(QPalette::WindowText, theme.rust);
    under_->setPalette(colours);
    under_->setFont(textFont(font(), TextSize::Small));
}

QString FieldEditor::complaint() const
{
    return under_->isHidden() ? QString() : under_->text();
}

void FieldEditor::complain(const QString& sentence, bool wrong)
{
    under_->setText(sentence.isEmpty() ? QString() : (wrong ? QStringLiteral("✕ ") : QStringLiteral("! ")) + sentence);
    under_->setVisible(!sentence.isEmpty());
}

bool FieldEditor::eventFilter(QObject* watched, QEvent* event)
{
    if (watched == input() && event->type() == QEvent::FocusOut)
        commit();
    if (watched == input() && event->type() == QEvent::KeyPress) {
        const auto* key = static_cast<QKeyEvent*>(event);
        if ((key->key() == Qt::Key_Return || key->key() == Qt::Key_Enter) && set_.empty()) {
            if (commit())
                focusNextChild();
            return true;
        }
        if (key->key() == Qt::Key_Escape && line_ && line_->isModified()) {
            line_->setModified(false);
            show(shown_, mixed_);
            return true;
        }
        if (key->matches(QKeySequence::Undo) && line_ && !line_->isModified())
            event->ignore(); // the window's undo takes it
    }
    return QWidget::eventFilter(watched, event);
}

} // namespace washfast::ui
