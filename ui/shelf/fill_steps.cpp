#include "ui/shelf/fill_steps.h"

#include "core/quantity/value_text.h"
#include "ui/shelf/words.h"

#include <QCheckBox>
#include <QDialogButtonBox>
#include <QDoubleSpinBox>
#include <QFormLayout>
#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>
#include <QVBoxLayout>
#include <cmath>

namespace washfast::ui {

namespace {

constexpr int mostSteps = 60; // as step_number and patch_position take
constexpr double usualFirst = 0.05, usualStep = 0.15; // of a bought wedge (common practice, no source)
constexpr int noteWidth = 440;

QString densityColumn(Entity child)
{
    return child == Entity::CardPatch ? QStringLiteral("patch_density") : QStringLiteral("step_uv_density");
}

QString numberedBy(Entity child)
{
    return child == Entity::CardPatch ? QStringLiteral("patch_position") : QStringLiteral("step_number");
}

/// 0.05 + 0.15 i without the dust of binary fractions.
double evenly(double first, double step, int i)
{
    constexpr double grain = 1e6;
    return std::round((first + step * i) * grain) / grain;
}

} // namespace

QString previewOf(double first, double step, int count, int decimals)
{
    const auto shown = [&](int i) { return QLocale().toString(evenly(first, step, i), 'f', decimals); };
    QStringList all;
    for (int i = 0; i < std::min(count, 3); ++i)
        all << shown(i);
    if (count > 4)
        all << QStringLiteral("…");
    if (count > 3)
        all << shown(count - 1);
    return all.join(QStringLiteral("  "));
}

Outcome checkSteps(const Catalogue& catalogue, Entity child, const EvenSteps& steps)
{
    const bool densities = steps.first_density && steps.density_step;
    if (steps.count < 1 || (!densities && !(steps.first_value && steps.value_step)))
        return Error { Trouble::BadInput, ShelfWords::tr("There is nothing to fill in: neither densities nor values."),
            {} };
    const auto& field = catalogue.columnField(child, densityColumn(child));
    for (const int i : { 0, steps.count - 1 })
        if (densities)
            if (const auto outside
                = outsideRange(field, evenly(*steps.first_density, *steps.density_step, i), QLocale()))
                return Error { Trouble::BadInput, *outside, field.label };
    return Done {};
}

Outcome writeSteps(store::Writer& writer, Entity child, qint64 owner, const EvenSteps& steps)
{
    if (auto fits = checkSteps(writer.catalogue(), child, steps); !fits)
        return fits;
    const bool densities = steps.first_density && steps.density_step;
    const bool values = steps.first_value && steps.value_step;
    const auto before = writer.children(child, owner);
    if (!before)
        return before.error();
    for (const auto id : *before)
        if (auto removed = writer.remove({ child, id }); !removed)
            return removed;
    for (int i = 0; i < steps.count; ++i) {
        std::vector<store::FieldValue> row { { numberedBy(child), knownNumber(i + 1) } };
        if (densities)
            row.emplace_back(densityColumn(child),
                knownNumber(evenly(*steps.first_density, *steps.density_step, i), Evidence::Assumed));
        if (values && child == Entity::NegativeStep)
            row.emplace_back(
                QStringLiteral("step_value"), knownNumber(evenly(*steps.first_value, *steps.value_step, i)));
        if (const auto added = writer.add(child, owner, row); !added)
            return added.error();
    }
    return Done {};
}

FillStepsDialog::FillStepsDialog(const Services& services, Entity child, qint64 owner, QWidget* parent)
    : QDialog(parent)
    , services_(services)
    , child_(child)
    , owner_(owner)
    , count_(new QSpinBox(this))
    , preview_(new QLabel(this))
{
    const auto& catalogue = services.desk.catalogue();
    const auto& density = catalogue.columnField(child, densityColumn(child));
    setWindowTitle(child == Entity::CardPatch ? tr("Fill the patches") : tr("Fill the steps"));
    auto* column = new QVBoxLayout(this);
    auto* form = new QFormLayout;
    column->addLayout(form);
    form->setFieldGrowthPolicy(QFormLayout::FieldsStayAtSizeHint);
    count_->setRange(1, mostSteps);
    count_->setValue(child == Entity::CardPatch ? 8 : 21);
    count_->setAccessibleName(tr("How many"));
    form->addRow(tr("&How many"), count_);
    // A pair of numbers behind a tick: from where, and by how much each time.
    const auto pair = [&](const QString& text, bool ticked, double first, double step, double most, int digits,
                          QDoubleSpinBox*& from, QDoubleSpinBox*& by) {
        auto* tick = new QCheckBox(text, this);
        tick->setChecked(ticked);
        auto* row = new QHBoxLayout;
        const auto box = [&](double value, double least, const QString& name) {
            auto* made = new QDoubleSpinBox(this);
            made->setDecimals(digits);
            made->setRange(least, most);
            made->setValue(value);
            made->setEnabled(ticked);
            made->setAccessibleName(name);
            connect(tick, &QCheckBox::toggled, made, &QWidget::setEnabled);
            connect(made, &QDoubleSpinBox::valueChanged, this, &FillStepsDialog::tell);
            row->addWidget(made);
            return made;
        };
        row->addWidget(new QLabel(tr("first"), this));
        from = box(first, 0, tr("%1: first").arg(density.label == text ? density.label : text));
        row->addWidget(new QLabel(tr("then each by"), this));
        by = box(step, 0, tr("%1: then each by").arg(text));
        row->addStretch(1);
        connect(tick, &QCheckBox::toggled, this, &FillStepsDialog::tell);
        form->addRow(tick, row);
        return tick;
    };
    densities_
        = pair(density.label, true, usualFirst, usualStep, density.high.value_or(6), 3, first_density_, density_step_);
    if (child == Entity::NegativeStep) {
        const auto& value = catalogue.columnField(child, u"step_value");
        values_ = pair(value.label, false, 0, 5, value.high.value_or(65535), 1, first_value_, value_step_);
    }
    preview_->setAccessibleName(tr("What will be filled in"));
    preview_->setWordWrap(true);
    preview_->setMinimumWidth(noteWidth);
    column->addWidget(preview_);
    column->addStretch(1);
    auto* buttons = new QDialogButtonBox(this);
    buttons->addButton(tr("Fill them in"), QDialogButtonBox::AcceptRole)->setDefault(true);
    buttons->addButton(tr("Leave it"), QDialogButtonBox::RejectRole);
    connect(buttons, &QDialogButtonBox::accepted, this, &FillStepsDialog::accept);
    connect(buttons, &QDialogButtonBox::rejected, this, &FillStepsDialog::reject);
    column->addWidget(buttons);
    connect(count_, &QSpinBox::valueChanged, this, &FillStepsDialog::tell);
    tell();
    count_->setFocus();
    count_->selectAll();
}

EvenSteps FillStepsDialog::steps() const
{
    EvenSteps steps { count_->value(), std::nullopt, std::nullopt, std::nullopt, std::nullopt };
    if (densities_->isChecked()) {
        steps.first_density = first_density_->value();
        steps.density_step = density_step_->value();
    }
    if (values_ && values_->isChecked()) {
        steps.first_value = first_value_->value();
        steps.value_step = value_step_->value();
    }
    return steps;
}

void FillStepsDialog::tell()
{
    if (!densities_ || (child_ == Entity::NegativeStep && !values_))
        return; // while it is being built
    const auto wanted = steps();
    QStringList lines;
    if (wanted.first_density)
        lines << tr("Densities: %1. They count as assumed until each is measured.")
                     .arg(previewOf(*wanted.first_density, *wanted.density_step, wanted.count, 2));
    if (wanted.first_value)
        lines << tr("Values: %1").arg(previewOf(*wanted.first_value, *wanted.value_step, wanted.count, 1));
    if (const int there = int(services_.desk.notebook().children(child_, owner_).size()); there > 0)
        lines << (child_ == Entity::CardPatch ? tr("The %n patches that are there are taken away.", nullptr, there)
                                              : tr("The %n steps that are there are taken away.", nullptr, there));
    preview_->setText(lines.join(QLatin1Char('\n')));
}

void FillStepsDialog::accept()
{
    const auto wanted = steps();
    // What does not fit is told here, beside the numbers.
    if (const auto fits = checkSteps(services_.desk.catalogue(), child_, wanted); !fits) {
        preview_->setText(fits.error().sentence());
        return;
    }
    const auto what = child_ == Entity::CardPatch ? tr("Fill %n patches", nullptr, wanted.count)
                                                  : tr("Fill %n steps", nullptr, wanted.count);
    if (services_.desk.perform(what, [&](store::Writer& writer) { return writeSteps(writer, child_, owner_, wanted); }))
        QDialog::accept();
}

} // namespace washfast::ui
