#include "ui/bench/new_prints.h"

#include "core/store/print_fields.h"
#include "ui/bench/codes.h"
#include "ui/bench/words.h"
#include "ui/common/offered.h"
#include "ui/common/print_form.h"

#include <QDialogButtonBox>
#include <QFormLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QSpinBox>
#include <QVBoxLayout>
#include <algorithm>

namespace washfast::ui {

namespace {

/// What prints of one lesson have in common; the rest differs from sheet to sheet.
constexpr const char* sharedFields[]
    = { "mix_code", "paper_name", "print_width_mm", "print_height_mm", "coat_tool", "print_method", "dose_goal_j_cm2" };

} // namespace

Result<QVector<qint64>> addPrints(store::Writer& writer, SessionId session, const PrintTemplate& sheets)
{
    QVector<qint64> made;
    for (const auto& code : sheets.codes) {
        std::vector<store::FieldValue> values { { QStringLiteral("print_code"), Known { Value(code) } },
            { QStringLiteral("print_session"), Known { Link { session.value } } } };
        if (!sheets.maker_prefix.isEmpty())
            values.emplace_back(QStringLiteral("print_maker"),
                Known { numbered(sheets.maker_prefix, sheets.first_maker + int(made.size()), 2) });
        const auto print = writer.add(Entity::Print, 0, values);
        if (!print)
            return print.error();
        for (const auto& [key, value] : sheets.fields)
            if (value.has())
                if (auto done = store::setPrintField(writer, PrintId { *print }, key, value, true); !done)
                    return done.error();
        made << *print;
    }
    return made;
}

NewPrintsDialog::NewPrintsDialog(const Services& services, SessionId session, int count, QWidget* parent)
    : QDialog(parent)
    , desk_(services.desk)
    , dialogs_(services.dialogs)
    , session_(session)
    , count_(new QSpinBox(this))
    , first_(new QLineEdit(this))
    , maker_(new QLineEdit(this))
    , preview_(new QLabel(this))
{
    setWindowTitle(count == 1 ? tr("New print") : tr("Several prints from one template"));
    const auto& notebook = desk_.notebook();
    const auto here = desk_.printsOf(session);
    auto* column = new QVBoxLayout(this);
    auto* form = new QFormLayout;
    form->setFieldGrowthPolicy(QFormLayout::AllNonFixedFieldsGrow);
    column->addLayout(form);

    count_->setRange(1, mostNewPrints);
    count_->setValue(count);
    count_->setAccessibleName(tr("How many prints"));
    form->addRow(tr("&How many"), count_);
    first_->setText(nextPrintCode(notebook, session, here));
    first_->setAccessibleName(tr("First code"));
    form->addRow(tr("&First code"), first_);
    preview_->setTextFormat(Qt::PlainText);
    auto quiet = palette();
    quiet.setColor(QPalette::WindowText, services.look.theme().quiet);
    preview_->setPalette(quiet);
    form->addRow(QString(), preview_);
    maker_->setAccessibleName(tr("Maker codes begin with"));
    maker_->setPlaceholderText(tr("for example m, for m01, m02 …; empty for none"));
    form->addRow(tr("Ma&ker codes begin with"), maker_);

    // The last print of this session, else of the notebook.
    const auto& all = notebook.prints();
    const qint64 last = !here.isEmpty() ? here.last() : all.rows() > 0 ? all.id(all.rows() - 1) : 0;
    if (last > 0) {
        auto* from = new QLabel(tr("As %1 had it:").arg(notebook.nameOf({ Entity::Print, last })), this);
        from->setPalette(quiet);
        form->addRow(QString(), from);
    }
    for (const char* shared : sharedFields) {
        const auto key = QString::fromLatin1(shared);
        const auto* field = desk_.catalogue().findPrintField(key);
        auto* editor = new FieldEditor(*field, contextFor(desk_), services.look.theme(), this);
        auto before = last > 0 ? desk_.get(last, key) : Known {};
        if (field->identity)
            before = unlessRetired(notebook, field->entity, before);
        editor->show(before);
        values_[key] = before;
        connect(editor, &FieldEditor::entered, this, [this, editor, key](const Known& entered) {
            values_[key] = entered;
            editor->show(entered);
        });
        auto* label = new QLabel(field->label, this);
        label->setBuddy(editor->input());
        form->addRow(label, editor);
        editors_.push_back(editor);
    }
    column->addStretch(1);
    auto* buttons = new QDialogButtonBox(this);
    buttons->addButton(tr("Make them"), QDialogButtonBox::AcceptRole)->setDefault(true);
    buttons->addButton(tr("Leave it"), QDialogButtonBox::RejectRole);
    connect(buttons, &QDialogButtonBox::accepted, this, &NewPrintsDialog::accept);
    connect(buttons, &QDialogButtonBox::rejected, this, &NewPrintsDialog::reject);
    column->addWidget(buttons);
    connect(count_, &QSpinBox::valueChanged, this, &NewPrintsDialog::showCodes);
    connect(first_, &QLineEdit::textChanged, this, &NewPrintsDialog::showCodes);
    connect(maker_, &QLineEdit::textChanged, this, &NewPrintsDialog::showCodes);
    showCodes();
    count_->setFocus();
    count_->selectAll();
}

FieldEditor* NewPrintsDialog::editor(const QString& key) const
{
    for (auto* editor : editors_)
        if (editor->field().key == key)
            return editor;
    return nullptr;
}

QStringList NewPrintsDialog::codes() const
{
    QStringList taken;
    const auto& prints = desk_.notebook().prints();
    const auto stem = partsOf(first_->text().trimmed()).stem;
    for (int row = 0; row < prints.rows(); ++row)
        if (const auto code = desk_.notebook().nameOf({ Entity::Print, prints.id(row) });
            code.startsWith(stem, Qt::CaseInsensitive))
            taken << code;
    return codesFrom(first_->text(), count_->value(), taken);
}

int NewPrintsDialog::firstMaker() const
{
    int highest = 0;
    const auto prefix = maker_->text().trimmed();
    for (const auto print : desk_.printsOf(session_))
        if (const auto parts = partsOf(desk_.get(print, u"print_maker").text().value_or(QString()));
            parts.digits > 0 && parts.stem == prefix)
            highest = std::max(highest, parts.number);
    return highest + 1;
}

void NewPrintsDialog::showCodes()
{
    const auto made = codes();
    QString text = made.size() < 2 ? made.value(0) : tr("%1 to %2").arg(made.first(), made.last());
    const auto prefix = maker_->text().trimmed();
    if (!prefix.isEmpty() && !made.isEmpty()) {
        const int from = firstMaker();
        const auto first = numbered(prefix, from, 2);
        text += made.size() < 2 ? tr(", maker %1").arg(first)
                                : tr(", makers %1 to %2").arg(first, numbered(prefix, from + int(made.size()) - 1, 2));
    }
    preview_->setText(text);
}

void NewPrintsDialog::accept()
{
    for (auto* editor : editors_)
        if (!editor->commit()) {
            editor->input()->setFocus();
            return;
        }
    PrintTemplate sheets;
    sheets.codes = codes();
    if (sheets.codes.isEmpty()) {
        dialogs_.message(
            this, windowTitle(), tr("Give the first print a code: it is what is pencilled on the back of the sheet."));
        first_->setFocus();
        return;
    }
    sheets.maker_prefix = maker_->text().trimmed();
    sheets.first_maker = firstMaker();
    for (const char* key : sharedFields)
        sheets.fields.emplace_back(QString::fromLatin1(key), values_[QString::fromLatin1(key)]);
    QVector<qint64> made;
    const bool done = desk_.perform(sheets.codes.size() == 1
            ? tr("New print %1").arg(sheets.codes.first())
            : tr("New prints, %1 to %2").arg(sheets.codes.first(), sheets.codes.last()),
        [&](store::Writer& writer) -> Outcome {
            auto added = addPrints(writer, session_, sheets);
            if (!added)
                return added.error();
            made = *added;
            return Done {};
        });
    if (!done)
        return;
    made_ = made;
    QDialog::accept();
}

} // namespace washfast::ui
