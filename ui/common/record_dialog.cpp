#include "ui/common/record_dialog.h"

#include "core/quantity/value_text.h"
#include "ui/common/keep_times.h"
#include "ui/common/print_form.h"

#include <QDialogButtonBox>
#include <QFormLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QScrollArea>
#include <QVBoxLayout>

namespace washfast::ui {

namespace {
constexpr int widest = 580;
constexpr int highest = 640;
constexpr int scrollBarRoom = 30;
} // namespace

RecordDialog::RecordDialog(const Services& services, Entity entity, qint64 id, QWidget* parent, qint64 owner)
    : QDialog(parent)
    , desk_(services.desk)
    , dialogs_(services.dialogs)
    , entity_(entity)
    , id_(id)
    , owner_(owner)
{
    setWindowTitle(id == 0 ? tr("New %1").arg(entityLabel(entity)) : tr("Change %1").arg(entityLabel(entity)));
    auto* column = new QVBoxLayout(this);
    auto* scroll = new QScrollArea(this);
    scroll->setWidgetResizable(true);
    scroll->setFrameShape(QFrame::NoFrame);
    scroll->setFocusPolicy(Qt::NoFocus);
    auto* page = new QWidget;
    auto* form = new QFormLayout(page);
    form->setFieldGrowthPolicy(QFormLayout::AllNonFixedFieldsGrow);
    for (const auto& field : desk_.catalogue().columns(entity))
        if (!field.hidden)
            addEditor(field, *form, services.look.theme());
    scroll->setWidget(page);
    column->addWidget(scroll);
    auto* buttons = new QDialogButtonBox(this);
    buttons->addButton(id == 0 ? tr("Make it") : tr("Change it"), QDialogButtonBox::AcceptRole)->setDefault(true);
    buttons->addButton(tr("Leave it"), QDialogButtonBox::RejectRole);
    connect(buttons, &QDialogButtonBox::accepted, this, &RecordDialog::accept);
    connect(buttons, &QDialogButtonBox::rejected, this, &RecordDialog::reject);
    column->addWidget(buttons);
    const auto wanted = page->sizeHint() + QSize(scrollBarRoom, buttons->sizeHint().height() + scrollBarRoom);
    resize(qMax(widest, wanted.width()), qMin(highest, wanted.height()));
    if (!editors_.empty())
        editors_.front()->input()->setFocus();
}

void RecordDialog::addEditor(const Field& field, QFormLayout& form, const Theme& theme)
{
    const auto& notebook = desk_.notebook();
    const Field* shown = &field;
    Known value = id_ == 0 ? Known {} : notebook.get({ entity_, id_ }, field.key);
    before_[field.key] = value;
    if (field.kind == Kind::Link) {
        auto named = std::make_unique<Field>(field);
        named->kind = Kind::Text;
        named->identity = true;
        named->entity = *field.target;
        shown = named.get();
        link_fields_.push_back(std::move(named));
        if (const auto link = value.link())
            value = { Value(notebook.nameOf({ *field.target, *link })), value.evidence };
    }
    if (field.identity) { // free text here: it is this record's own name
        auto own = std::make_unique<Field>(*shown);
        own->identity = false;
        shown = own.get();
        link_fields_.push_back(std::move(own));
    }
    auto* editor = new FieldEditor(*shown, contextFor(desk_), theme, form.parentWidget());
    editor->setObjectName(field.key);
    editor->show(value);
    connect(editor, &FieldEditor::entered, this, [this, editor, key = field.key](const Known& entered) {
        entered_[key] = entered;
        editor->show(entered);
    });
    auto* label = new QLabel(field.label, form.parentWidget());
    label->setBuddy(editor->input());
    label->setToolTip(field.description);
    form.addRow(label, editor);
    editors_.push_back(editor);
}

FieldEditor* RecordDialog::editor(const QString& column) const
{
    for (auto* editor : editors_)
        if (editor->objectName() == column)
            return editor;
    return nullptr;
}

void RecordDialog::suggest(const QString& column, const Known& value)
{
    if (auto* found = editor(column)) {
        entered_[column] = value;
        found->show(value);
    }
}

void RecordDialog::fix(const QString& column, const QString& sentence)
{
    if (auto* found = editor(column)) {
        found->setReadOnly(true);
        const int before = found->sizeHint().height();
        found->remark(sentence);
        resize(width(), qMin(highest, height() + found->sizeHint().height() - before));
        if (auto* line = qobject_cast<QLineEdit*>(found->input()))
            line->home(false);
    }
}

Known RecordDialog::linkFrom(const Field& field, const QString& name, QString& problem) const
{
    if (name.isEmpty())
        return {};
    const auto id = desk_.notebook().byName(*field.target, name);
    if (!id)
        problem = tr("There is no %1 named %2. Make it first.").arg(entityLabel(*field.target), name);
    return id ? Known { Link { *id } } : Known {};
}

bool RecordDialog::isNamed()
{
    const auto* identity = desk_.catalogue().identity(entity_);
    if (!identity || identity->kind != Kind::Text || identity->hidden)
        return true;
    const auto given = entered_.find(identity->key);
    return given == entered_.end() ? id_ != 0 : given->second.has();
}

std::optional<std::vector<store::FieldValue>> RecordDialog::gathered()
{
    std::vector<store::FieldValue> values;
    for (const auto& [key, known] : entered_) {
        const auto& field = desk_.catalogue().columnField(entity_, key);
        Known value = known;
        if (field.kind == Kind::Link) {
            QString problem;
            value = linkFrom(field, known.text().value_or(QString()), problem);
            if (!problem.isEmpty()) {
                editor(key)->complain(problem, true);
                editor(key)->input()->setFocus();
                return std::nullopt;
            }
        }
        values.emplace_back(key, value);
    }
    return values;
}

Outcome RecordDialog::write(store::Writer& writer, const std::vector<store::FieldValue>& values)
{
    if (id_ == 0) {
        const auto made = writer.add(entity_, owner_, values);
        if (!made)
            return made.error();
        id_ = *made;
    } else {
        for (const auto& [key, value] : values)
            if (auto set = writer.set({ entity_, id_ }, key, value, before_[key]); !set)
                return set;
    }
    return afterwards_ ? afterwards_(writer) : Outcome(Done {});
}

void RecordDialog::tellMeanwhile()
{
    for (const auto& [key, value] : entered_) {
        const auto now = desk_.notebook().get({ entity_, id_ }, key);
        if (now.value == before_[key].value)
            continue;
        before_[key] = now; // seen from now on: accepting once more is meant
        const auto& field = desk_.catalogue().columnField(entity_, key);
        const auto text
            = now.link() ? desk_.notebook().nameOf({ *field.target, *now.link() }) : displayText(field, now, locale());
        editor(key)->complain(now.has() ? tr("Somebody else has entered %1 meanwhile.").arg(text)
                                        : tr("Somebody else has emptied this meanwhile."),
            false);
    }
}

void RecordDialog::accept()
{
    for (auto* editor : editors_)
        if (!editor->commit()) {
            editor->input()->setFocus();
            return;
        }
    if (!isNamed()) {
        const auto* identity = desk_.catalogue().identity(entity_);
        dialogs_.message(this, windowTitle(), tr("Give it a name or a code first: %1.").arg(identity->label));
        editor(identity->key)->input()->setFocus();
        return;
    }
    const auto values = gathered();
    if (!values)
        return;
    const auto late = lateEnd(
        desk_.catalogue().columns(entity_), [&](const QString& key) { return entered_.contains(key); },
        [&](const QString& key) { return entered_.contains(key) ? entered_[key] : before_[key]; });
    if (late && !keepsTimes(dialogs_, this, *late))
        return;
    const auto before = id_;
    if (desk_.perform(windowTitle(), [&](store::Writer& writer) { return write(writer, *values); })) {
        QDialog::accept();
        return;
    }
    id_ = before;
    if (id_ != 0)
        tellMeanwhile();
}

std::optional<qint64> makeRecord(const Services& services, Entity entity, QWidget* parent)
{
    RecordDialog dialog(services, entity, 0, parent);
    if (dialog.exec() != QDialog::Accepted)
        return std::nullopt;
    return dialog.id();
}

} // namespace washfast::ui
