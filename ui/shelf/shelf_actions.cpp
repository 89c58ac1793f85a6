// What the buttons of the shelf do: retire, put away, labels, copies of formulas.
#include "core/chemistry/bottle_labels.h"
#include "ui/sheets/label_ask.h"
#include "ui/shelf/formula_record.h"
#include "ui/shelf/record_model.h"
#include "ui/shelf/shelf_view.h"

#include "ui/common/offered.h"

#include <QRegularExpression>
#include <QTableView>
#include <algorithm>

namespace washfast::ui {

namespace {

/// A name without what a file cannot have in its own.
QString fileName(const QString& name)
{
    static const QRegularExpression unfit(QStringLiteral("[^\\p{L}\\p{N}._-]+"));
    auto file = name;
    return file.replace(unfit, QStringLiteral("-"));
}

} // namespace

QStringList ShelfView::usesOf(Ref record) const
{
    desk.waitUntilComplete();
    QStringList uses;
    for (const auto entity : allEntities()) {
        int n = 0;
        const auto owner = ownerOf(entity);
        for (const auto& field : desk.catalogue().columns(entity)) {
            if (field.kind != Kind::Link || field.target != record.entity || (owner && owner->column == field.key))
                continue;
            const auto& links = std::get<LinkColumn>(desk.notebook().table(entity).column(field.ordinal));
            n += int(std::count(links.begin(), links.end(), record.id));
        }
        if (n > 0)
            uses << counted(entity, n);
    }
    return uses;
}

QString ShelfView::counted(Entity entity, int n)
{
    switch (entity) {
    case Entity::Print:
        return tr("%n print(s)", nullptr, n);
    case Entity::Session:
        return tr("%n session(s)", nullptr, n);
    case Entity::Mix:
        return tr("%n mix(es)", nullptr, n);
    case Entity::Exposure:
        return tr("%n exposure(s)", nullptr, n);
    default:
        return tr("%n other record(s)", nullptr, n);
    }
}

void ShelfView::retire()
{
    const Ref record { model_->entity(), current() };
    const auto column = retiredColumn(desk.catalogue(), record.entity);
    if (record.id == 0 || column.isEmpty() || !desk.writable())
        return;
    const auto name = desk.notebook().nameOf(record);
    const bool back = model_->facts().retired(record);
    if (desk.perform((back ? tr("Take back %1 %2") : tr("Retire %1 %2")).arg(entityLabel(record.entity), name),
            [&](store::Writer& writer) { return writer.set(record, column, Known { !back }); }))
        Q_EMIT say((back ? tr("On the shelf again: %1.") : tr("Retired: %1. It stays on record.")).arg(name));
}

void ShelfView::label()
{
    const Ref record { model_->entity(), current() };
    const bool mix = record.entity == Entity::Mix;
    if (record.id == 0 || (!mix && record.entity != Entity::Chemical))
        return;
    const auto name = desk.notebook().nameOf(record);
    const auto label = mix ? chemistry::labelOfMix(desk.notebook(), record.id)
                           : chemistry::labelOfChemical(desk.notebook(), record.id);
    const auto written
        = sheets::saveLabels(dialogs, this, tr("Label of %1").arg(name), tr("label-%1").arg(fileName(name)), { label });
    if (!written)
        return;
    const auto column = mix ? QStringLiteral("mix_labelled") : QStringLiteral("chemical_labelled");
    if (desk.writable() && desk.notebook().get(record, column).yes() != true)
        (void)desk.perform(tr("Label of %1").arg(name),
            [&](store::Writer& writer) { return writer.set(record, column, Known { true }); });
    Q_EMIT say(tr("Saved: %1. %2 counts as labelled now.").arg(*written, name));
}

void ShelfView::copyFormula()
{
    if (!desk.writable())
        return;
    const auto title = tr("Copy a published formula");
    const auto& published = chemistry::recipes();
    QStringList names;
    for (const auto& recipe : published)
        names << recipe.name;
    const auto which = dialogs.question(this, title, tr("Which one does your own begin as?"), names);
    if (!which)
        return;
    const auto& recipe = published[size_t(*which)];
    const auto typed = dialogs.askText(this, title, tr("Name of your own formula"), tr("%1, our own").arg(recipe.name));
    if (!typed)
        return;
    const auto name = typed->trimmed();
    if (name.isEmpty() || desk.notebook().byName(Entity::Formula, name) || chemistry::findRecipe(name)) {
        dialogs.message(this, title,
            name.isEmpty() ? tr("It needs a name of its own.")
                           : tr("There is a formula named %1 already; yours needs a name of its own.").arg(name));
        return;
    }
    qint64 made = 0;
    if (!desk.perform(tr("Copy the formula %1").arg(recipe.name), [&](store::Writer& writer) -> Outcome {
            const auto written = writeFormula(writer, chemistry::copyOf(recipe, name));
            if (!written)
                return written.error();
            made = *written;
            return Done {};
        }))
        return;
    choose(Ref { Entity::Formula, made });
    table_->setFocus();
    Q_EMIT say(tr("Made: %1. Its ingredients can be changed below; the Mixing view offers it.").arg(name));
}

void ShelfView::putAway()
{
    const Ref record { model_->entity(), current() };
    if (record.id == 0 || !desk.writable())
        return;
    const auto name = desk.notebook().nameOf(record);
    if (const auto uses = usesOf(record); !uses.isEmpty()) {
        dialogs.message(
            this, tr("Put away"), tr("%1 stays: it is used by %2.").arg(name, uses.join(QStringLiteral(", "))));
        return;
    }
    if (desk.perform(tr("Put away %1 %2").arg(entityLabel(record.entity), name),
            [&](store::Writer& writer) { return writer.remove(record); }))
        Q_EMIT say(tr("Put away: %1. Ctrl+Z brings it back.").arg(name));
}

} // namespace washfast::ui
