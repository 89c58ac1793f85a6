#include "ui/common/print_form.h"

#include "core/store/print_fields.h"

#include <QFormLayout>
#include <QLabel>

namespace washfast::ui {

FieldContext contextFor(Desk& desk)
{
    FieldContext context;
    context.names = [&desk](Entity entity) {
        QStringList names;
        const auto& table = desk.notebook().table(entity);
        for (int row = table.rows() - 1; row >= 0; --row) // the newest first
            if (const auto name = desk.notebook().nameOf({ entity, table.id(row) }); !name.isEmpty())
                names << name;
        return names;
    };
    context.now = [&desk] { return desk.now(); };
    return context;
}

PrintForm::PrintForm(Desk& desk, const Theme& theme, QWidget* parent)
    : QScrollArea(parent)
    , desk_(desk)
    , theme_(theme)
{
    setWidgetResizable(true);
    setFrameShape(QFrame::NoFrame);
    setFocusPolicy(Qt::NoFocus);
    connect(&desk, &Desk::changed, this, &PrintForm::refresh);
    connect(&desk, &Desk::reloaded, this, &PrintForm::refresh);
}

void PrintForm::setStation(Station station)
{
    setFields(desk_.catalogue().recordable(station));
}

void PrintForm::setFields(const std::vector<const Field*>& fields)
{
    editors_.clear();
    auto* page = new QWidget;
    auto* form = new QFormLayout(page);
    form->setContentsMargins(4, 4, 4, 4);
    form->setFieldGrowthPolicy(QFormLayout::AllNonFixedFieldsGrow);
    form->setRowWrapPolicy(QFormLayout::WrapLongRows);
    for (const auto* field : fields) {
        // A linked record's own fields (the mix's pH) are entered where that record is.
        if (!store::isWritablePrintField(desk_.catalogue(), *field))
            continue;
        auto* editor = new FieldEditor(*field, contextFor(desk_), theme_, page);
        editor->setReadOnly(!desk_.writable());
        connect(editor, &FieldEditor::entered, this, [this, editor](const Known& value) {
            const auto expected = prints_.size() == 1 ? std::optional(editor->shown()) : std::nullopt;
            if (!desk_.perform(tr("%1, %n print(s)", nullptr, int(prints_.size())).arg(editor->field().label), [&](store::Writer& writer) -> Outcome {
                    for (const auto print : prints_)
                        if (auto done = store::setPrintField(writer, PrintId { print }, editor->field().key, value, true, expected); !done)
                            return done;
                    return Done {};
                }))
                refresh();
        });
        auto* label = new QLabel(field->label, page);
        label->setBuddy(editor->input());
        label->setToolTip(field->description);
        form->addRow(label, editor);
        editors_.push_back(editor);
    }
    setWidget(page); // deletes the page before
    refresh();
}

void PrintForm::setPrints(const QVector<qint64>& prints)
{
    if (prints == prints_)
        return;
    for (auto* editor : editors_)
        editor->commit(); // what was typed belongs to the prints chosen until now
    prints_ = prints;
    refresh();
}

void PrintForm::refresh()
{
    for (auto* editor : editors_) {
        Known first;
        bool mixed = false;
        for (qsizetype i = 0; i < prints_.size(); ++i) {
            const auto value = desk_.get(prints_[i], editor->field().key);
            if (i == 0)
                first = value;
            else
                mixed = mixed || value.value != first.value;
        }
        editor->show(mixed ? Known {} : first, mixed);
        editor->setEnabled(!prints_.isEmpty());
    }
}

void PrintForm::setTheme(const Theme& theme)
{
    theme_ = theme;
    for (auto* editor : editors_)
        editor->setTheme(theme);
}

FieldEditor* PrintForm::editor(const QString& key) const
{
    for (auto* editor : editors_)
        if (editor->field().key == key)
            return editor;
    return nullptr;
}

void PrintForm::focusField(const QString& key)
{
    auto* chosen = editor(key);
    if (!chosen && !editors_.empty())
        chosen = editors_.front();
    if (!chosen)
        return;
    ensureWidgetVisible(chosen);
    chosen->input()->setFocus(Qt::ShortcutFocusReason);
}

} // namespace washfast::ui
