#include "ui/shelf/formula_record.h"

#include "ui/common/record_dialog.h"

#include <QDialogButtonBox>
#include <QLabel>
#include <QPlainTextEdit>
#include <QPushButton>
#include <QVBoxLayout>
#include <algorithm>
#include <limits>

namespace washfast::ui {

namespace {

constexpr int stepsWidth = 560, stepsHeight = 360;

const QString ironColumn = QStringLiteral("formula_iron_mol_l");
const QString cyanoferrateColumn = QStringLiteral("formula_hexacyanoferrate_mol_l");

/// The formula as it stands inside the step.
Result<chemistry::WrittenFormula> readWritten(store::Writer& writer, qint64 formula)
{
    const auto& catalogue = writer.catalogue();
    const auto of = [&](const Record& record, const char* key) {
        return record.values[size_t(catalogue.column(record.ref.entity, QString::fromLatin1(key)))];
    };
    const auto textOf
        = [&](const Record& record, const char* key) { return of(record, key).text().value_or(QString()); };
    const auto record = writer.read({ Entity::Formula, formula });
    if (!record)
        return record.error();
    chemistry::WrittenFormula written;
    if (!*record)
        return written;
    written.name = textOf(**record, "formula_name");
    written.volume_ml = of(**record, "formula_volume_ml").number();
    const auto parts = writer.children(Entity::FormulaPart, formula);
    if (!parts)
        return parts.error();
    for (const auto id : *parts) {
        const auto part = writer.read({ Entity::FormulaPart, id });
        if (!part)
            return part.error();
        if (*part)
            written.ingredients.push_back({ textOf(**part, "ingredient_substance"), of(**part, "ingredient_g").number(),
                textOf(**part, "ingredient_solution"), {} });
    }
    return written;
}

} // namespace

Outcome writeReckoned(store::Writer& writer, qint64 formula)
{
    const auto written = readWritten(writer, formula);
    if (!written)
        return written.error();
    if (written->ingredients.empty() || chemistry::findRecipe(written->name))
        return Done {};
    const auto reckoned = chemistry::reckonedFrom(*written);
    const Ref ref { Entity::Formula, formula };
    if (auto set = writer.set(ref, ironColumn, reckoned.iron_mol_l); !set)
        return set;
    return writer.set(ref, cyanoferrateColumn, reckoned.hexacyanoferrate_mol_l);
}

Result<qint64> writeFormula(store::Writer& writer, const chemistry::WrittenFormula& written)
{
    std::vector<store::FieldValue> values { { QStringLiteral("formula_name"), Known { Value(written.name) } } };
    const auto put = [](std::vector<store::FieldValue>& row, const char* key, const QString& text) {
        if (!text.isEmpty())
            row.emplace_back(QString::fromLatin1(key), Known { Value(text) });
    };
    put(values, "formula_source", written.source);
    put(values, "formula_steps", written.steps);
    put(values, "formula_notes", written.notes);
    if (written.volume_ml)
        values.emplace_back(QStringLiteral("formula_volume_ml"), knownNumber(*written.volume_ml));
    const auto made = writer.add(Entity::Formula, 0, values);
    if (!made)
        return made;
    int position = 0;
    for (const auto& ingredient : written.ingredients) {
        std::vector<store::FieldValue> row { { QStringLiteral("ingredient_position"), knownNumber(++position) } };
        put(row, "ingredient_substance", ingredient.substance);
        put(row, "ingredient_solution", ingredient.solution);
        put(row, "ingredient_note", ingredient.note);
        if (ingredient.grams)
            row.emplace_back(QStringLiteral("ingredient_g"), knownNumber(*ingredient.grams));
        if (const auto added = writer.add(Entity::FormulaPart, *made, row); !added)
            return added;
    }
    if (const auto reckoned = writeReckoned(writer, *made); !reckoned)
        return reckoned.error();
    return made;
}

void prepareFormulaForm(RecordDialog& form, const Desk& desk, qint64 formula)
{
    form.fix(QStringLiteral("formula_steps"),
        StepsDialog::tr("One a line; “Steps...” beside the ingredients changes them."));
    if (formula == 0 || desk.notebook().children(Entity::FormulaPart, formula).empty())
        return;
    for (const auto& column : { ironColumn, cyanoferrateColumn })
        form.fix(column, StepsDialog::tr("Reckoned from the ingredients."));
    form.setAfterwards([formula](store::Writer& writer) { return writeReckoned(writer, formula); });
}

StepsDialog::StepsDialog(const Services& services, qint64 formula, QWidget* parent)
    : QDialog(parent)
    , services_(services)
    , formula_(formula)
    , text_(new QPlainTextEdit(this))
{
    const auto& notebook = services.desk.notebook();
    setWindowTitle(tr("Steps of %1").arg(notebook.nameOf({ Entity::Formula, formula })));
    auto* column = new QVBoxLayout(this);
    auto* label = new QLabel(tr("What to &do, in order; one step a line. The Mixing view makes a list to tick off of "
                                "it."),
        this);
    label->setWordWrap(true);
    label->setBuddy(text_);
    column->addWidget(label);
    before_ = notebook.get({ Entity::Formula, formula }, u"formula_steps");
    text_->setPlainText(before_.text().value_or(QString()));
    text_->setTabChangesFocus(true);
    text_->setAccessibleName(tr("Steps of the formula, one a line"));
    column->addWidget(text_, 1);
    auto* buttons = new QDialogButtonBox(this);
    buttons->addButton(tr("Change them"), QDialogButtonBox::AcceptRole);
    buttons->addButton(tr("Leave it"), QDialogButtonBox::RejectRole);
    connect(buttons, &QDialogButtonBox::accepted, this, &StepsDialog::accept);
    connect(buttons, &QDialogButtonBox::rejected, this, &StepsDialog::reject);
    column->addWidget(buttons);
    resize(stepsWidth, stepsHeight);
    text_->setFocus();
}

void StepsDialog::accept()
{
    const auto typed = text_->toPlainText().trimmed();
    const auto known = typed.isEmpty() ? Known {} : Known { Value(typed) };
    if (known.value == before_.value || services_.desk.perform(windowTitle(), [&](store::Writer& writer) {
            return writer.set({ Entity::Formula, formula_ }, QStringLiteral("formula_steps"), known, before_);
        }))
        QDialog::accept();
}

} // namespace washfast::ui
