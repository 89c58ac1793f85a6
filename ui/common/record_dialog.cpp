#include "ui/common/record_dialog.h"

#include "ui/common/print_form.h"

#include <QDialogButtonBox>
#include <QFormLayout>
#include <QLabel>
#include <QPushButton>
#include <QScrollArea>
#include <QVBoxLayout>

namespace washfast::ui {

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
    auto* page = new QWidget;
    auto* form = new QFormLayout(page);
    form->setFieldGrowthPolicy(QFormLayout::AllNonFixedFieldsGrow);
    const auto& notebook = desk_.notebook();
    for (const auto& field : desk_.catalogue().columns(entity)) {
        if (field.hidden)
            continue;
        const Field* shown = &field;
        Known value = id == 0 ? Known {} : notebook.get({ entity, id }, field.key);
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
        auto* editor = new FieldEditor(*shown, contextFor(desk_), services.look.theme(), page);
        editor->setObjectName(field.key);
        editor->show(value);
        before_[field.key] = value;
        connect(editor, &FieldEditor::entered, this, [this, editor, key = field.key](const Known& entered) {
            entered_[key] = entered;
            editor->show(entered);
        });
        auto* label = new QLabel(field.label, page);
        label->setBuddy(editor->input());
        form->addRow(label, editor);
        editors_.push_back(editor);
    }
    scroll->setWidget(page);
    column->addWidget(scroll);
    auto* buttons = new QDialogButtonBox(this);
    buttons->addButton(id == 0 ? tr("Make it") : tr("Change it"), QDialogButtonBox::AcceptRole)->setDefault(true);
    buttons->addButton(tr("Leave it"), QDialogButtonBox::RejectRole);
    connect(buttons, &QDialogButtonBox::accepted, this, &RecordDialog::accept);
    connect(buttons, &QDialogButtonBox::rejected, this, &RecordDialog::reject);
    column->addWidget(buttons);
    resize(560, qMin(640, 120 + 44 * int(editors_.size())));
    if (!editors_.empty())
        editors_.front()->input()->setFocus();
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

Known RecordDialog::linkFrom(const Field& field, const QString& name, QString& problem) const
{
    if (name.isEmpty())
        return {};
    const auto id = desk_.notebook().byName(*field.target, name);
    if (!id)
        problem = tr("There is no %1 named %2. Make it first.").arg(entityLabel(*field.target), name);
    return id ? Known { Link { *id } } : Known {};
}

void RecordDialog::accept()
{
    for (auto* editor : editors_)
        if (!editor->commit()) {
            editor->input()->setFocus();
            return;
        }
    const auto* identity = desk_.catalogue().identity(entity_);
    if (id_ == 0 && identity && identity->kind == Kind::Text
        && (!entered_.contains(identity->key) || !entered_[identity->key].has())) {
        dialogs_.message(this, windowTitle(), tr("Give it a name or a code first: %1.").arg(identity->label));
        editor(identity->key)->input()->setFocus();
        return;
    }
    std::vector<store::FieldValue> values;
    for (const auto& [key, known] : entered_) {
        const auto& field = desk_.catalogue().columnField(entity_, key);
        Known value = known;
        if (field.kind == Kind::Link) {
            QString problem;
            value = linkFrom(field, known.text().value_or(QString()), problem);
            if (!problem.isEmpty()) {
                dialogs_.message(this, windowTitle(), problem);
                return;
            }
        }
        values.emplace_back(key, value);
    }
    const auto before = id_;
    const bool done = desk_.perform(windowTitle(), [&](store::Writer& writer) -> Outcome {
        if (id_ == 0) {
            const auto made = writer.add(entity_, owner_, values);
            if (!made)
                return made.error();
            id_ = *made;
            return Done {};
        }
        for (const auto& [key, value] : values)
            if (auto set = writer.set({ entity_, id_ }, key, value); !set)
                return set;
        return Done {};
    });
    if (done)
        QDialog::accept();
    else
        id_ = before;
}

std::optional<qint64> makeRecord(const Services& services, Entity entity, QWidget* parent)
{
    RecordDialog dialog(services, entity, 0, parent);
    if (dialog.exec() != QDialog::Accepted)
        return std::nullopt;
    return dialog.id();
}

} // namespace washfast::ui
