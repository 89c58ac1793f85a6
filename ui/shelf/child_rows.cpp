#include "ui/shelf/child_rows.h"

#include "core/chemistry/substance.h"
#include "ui/common/child_table.h"
#include "ui/common/field_editor.h"
#include "ui/common/record_dialog.h"
#include "ui/shelf/fill_steps.h"
#include "ui/shelf/formula_record.h"
#include "ui/shelf/tool_facts.h"
#include "ui/shelf/words.h"

#include <QCompleter>
#include <QLineEdit>
#include <QVBoxLayout>

namespace washfast::ui {

namespace {

constexpr int mostRows = 5; // the records above need the room

QString substanceProblem(const QString& text)
{
    if (text.trimmed().isEmpty())
        return {};
    const auto found = chemistry::findSubstance(text);
    if (!found)
        return found.error().says;
    if (!chemistry::substanceByKey(found->substance.key))
        return ShelfWords::tr("A formula that can be read, but none of the substances that a mix is reckoned from.");
    return found->says;
}

QStringList substanceNames()
{
    QStringList names;
    for (const auto& substance : chemistry::knownSubstances()) {
        names << substance.name;
        if (substance.key != substance.name)
            names << substance.key;
    }
    return names;
}

} // namespace

void checkWhileTyping(RecordDialog& dialog)
{
    for (const char* key : { "ingredient_substance", "part_substance" })
        if (auto* editor = dialog.editor(QString::fromLatin1(key))) {
            if (auto* line = qobject_cast<QLineEdit*>(editor->input())) {
                auto* completer = new QCompleter(substanceNames(), line);
                completer->setCaseSensitivity(Qt::CaseInsensitive);
                completer->setFilterMode(Qt::MatchContains);
                line->setCompleter(completer);
            }
            QObject::connect(editor, &FieldEditor::entered, editor, [editor](const Known& entered) {
                editor->complain(substanceProblem(entered.text().value_or(QString())), false);
            });
        }
    for (const char* key : { "lamp_spectrum", "cover_spectrum" })
        if (auto* editor = dialog.editor(QString::fromLatin1(key)))
            QObject::connect(editor, &FieldEditor::entered, editor,
                [editor, column = QString::fromLatin1(key)](const Known& entered) {
                    editor->complain(spectrumProblem(column, entered.text().value_or(QString())), false);
                });
}

ChildRows::ChildRows(const Services& services, QWidget* parent)
    : QWidget(parent)
    , services_(services)
{
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    // All of them at once, so that Tab comes to them between the records and the buttons.
    for (const auto child : { Entity::MixPart, Entity::NegativeStep, Entity::CardPatch, Entity::FormulaPart })
        make(child);
    connect(&services.look, &ThemeSource::changed, this, &ChildRows::setTheme);
}

std::optional<Entity> ChildRows::childOf(Entity entity)
{
    switch (entity) {
    case Entity::Mix:
        return Entity::MixPart;
    case Entity::Negative:
        return Entity::NegativeStep;
    case Entity::Card:
        return Entity::CardPatch;
    case Entity::Formula:
        return Entity::FormulaPart;
    default:
        return std::nullopt;
    }
}

ChildTable* ChildRows::table() const
{
    const auto child = childOf(record_.entity);
    const auto found = child ? tables_.find(*child) : tables_.end();
    return found == tables_.end() ? nullptr : found->second;
}

void ChildRows::addFill(ChildTable& table)
{
    table.addButton(table.entity() == Entity::CardPatch ? tr("&Fill patches...") : tr("&Fill steps..."),
        tr("First density, step and count at once, as for a bought one: 21 steps of 0.15."), [this] { fillSteps(); });
}

void ChildRows::make(Entity child)
{
    const QString heading = child == Entity::MixPart ? tr("Parts of the mix")
        : child == Entity::NegativeStep              ? tr("Steps")
        : child == Entity::CardPatch                 ? tr("Patches")
                                                     : tr("Ingredients");
    auto* table = new ChildTable(services_, child, heading, this);
    tables_[child] = table;
    table->setMostRows(mostRows);
    table->setPrepare(checkWhileTyping);
    layout()->addWidget(table);
    if (child == Entity::FormulaPart) {
        table->setAfterwards([this](store::Writer& writer) { return writeReckoned(writer, record_.id); });
        table->addButton(tr("&Steps..."), tr("What to do, in order, one step a line."), [this] { changeSteps(); });
    } else if (child != Entity::MixPart) {
        addFill(*table);
    }
    table->hide();
}

void ChildRows::setRecord(Ref record)
{
    const bool same = record == record_;
    record_ = record;
    const auto child = childOf(record.entity);
    const bool any = child && record.id != 0;
    for (const auto& [entity, table] : tables_) {
        table->setVisible(any && entity == *child);
        if (any && entity == *child) {
            // Under the name of a published formula the program's own amounts count.
            const bool published = record.entity == Entity::Formula
                && chemistry::findRecipe(services_.desk.notebook().nameOf(record)) != nullptr;
            if (same)
                table->refresh();
            else
                table->setOwner(record.id);
            table->setChangeable(!published);
        }
    }
    setVisible(any);
}

void ChildRows::refresh()
{
    setRecord(record_);
}

void ChildRows::setTheme(const Theme& theme)
{
    for (const auto& [entity, table] : tables_)
        table->setTheme(theme);
}

void ChildRows::fillSteps()
{
    const auto child = childOf(record_.entity);
    if (!child || record_.id == 0 || !services_.desk.writable())
        return;
    FillStepsDialog dialog(services_, *child, record_.id, this);
    (void)dialog.exec();
}

void ChildRows::changeSteps()
{
    if (record_.entity != Entity::Formula || record_.id == 0 || !services_.desk.writable())
        return;
    StepsDialog dialog(services_, record_.id, this);
    (void)dialog.exec();
}

} // namespace washfast::ui
