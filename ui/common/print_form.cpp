#include "ui/common/print_form.h"

#include "core/store/print_fields.h"
#include "ui/common/keep_times.h"
#include "ui/common/offered.h"

#include <QEvent>
#include <QFormLayout>
#include <QLabel>

namespace washfast::ui {

FieldContext contextFor(Desk& desk)
{
    FieldContext context;
    context.names = [&desk](Entity entity) { return offeredNames(desk.notebook(), entity); };
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
    finishTyping();
    lines_.clear();
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
        connect(editor, &FieldEditor::entered, this,
            [this, at = lines_.size()](const Known& value) { enter(lines_[at], value); });
        connect(editor, &FieldEditor::dropped, this, &PrintForm::refresh);
        auto* label = new QLabel(field->label, page);
        label->setBuddy(editor->input());
        label->setToolTip(field->description);
        form->addRow(label, editor);
        lines_.push_back({ editor, {} });
    }
    setWidget(page); // deletes the page before
    refresh();
    fitHeight();
}

bool PrintForm::keep(const Field& field, const Known& value)
{
    if (!dialogs_ || field.kind != Kind::Time)
        return true;
    for (const auto print : prints_) {
        const auto late = lateEnd(
            desk_.catalogue().printFields(), [&](const QString& key) { return key == field.key; },
            [&](const QString& key) { return key == field.key ? value : desk_.get(print, key); });
        if (late)
            return keepsTimes(*dialogs_, this, *late); // one answer for all of them
    }
    return true;
}

void PrintForm::enter(const Line& line, const Known& value)
{
    const auto& field = line.editor->field();
    const auto prints = prints_;
    const auto seen = line.seen;
    if (!keep(field, value)) {
        refresh();
        return;
    }
    if (!desk_.perform(
            tr("%1, %n print(s)", nullptr, int(prints.size())).arg(field.label), [&](store::Writer& writer) -> Outcome {
                for (qsizetype i = 0; i < prints.size(); ++i)
                    if (auto done
                        = store::setPrintField(writer, PrintId { prints[i] }, field.key, value, true, seen[size_t(i)]);
                        !done)
                        return done;
                return Done {};
            }))
        refresh();
}

void PrintForm::finishTyping()
{
    for (size_t i = 0; i < lines_.size(); ++i)
        if (!lines_[i].editor->commit())
            lines_[i].editor->drop();
}

void PrintForm::setPrints(const QVector<qint64>& prints)
{
    if (prints == prints_)
        return;
    finishTyping(); // it belongs to the prints chosen until now
    prints_ = prints;
    refresh();
}

void PrintForm::refresh()
{
    for (auto& line : lines_) {
        std::vector<Known> held;
        bool mixed = false;
        for (const auto print : prints_) {
            held.push_back(desk_.get(print, line.editor->field().key));
            mixed = mixed || held.back().value != held.front().value;
        }
        const bool typing = line.editor->typing();
        line.editor->show(held.empty() || mixed ? Known {} : held.front(), mixed);
        line.editor->setEnabled(!prints_.isEmpty());
        if (!typing)
            line.seen = std::move(held);
    }
}

void PrintForm::setTheme(const Theme& theme)
{
    theme_ = theme;
    for (const auto& line : lines_)
        line.editor->setTheme(theme);
}

void PrintForm::showWhole()
{
    whole_ = true;
    setVerticalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    fitHeight();
}

void PrintForm::fitHeight()
{
    if (!whole_ || !widget())
        return;
    const auto* form = widget()->layout();
    const int width = viewport()->width();
    const int height = form->hasHeightForWidth() ? form->totalHeightForWidth(width) : form->totalSizeHint().height();
    if (height != minimumHeight() || height != maximumHeight())
        setFixedHeight(height);
}

bool PrintForm::eventFilter(QObject* watched, QEvent* event)
{
    const bool filtered = QScrollArea::eventFilter(watched, event);
    if (watched == widget() && event->type() == QEvent::LayoutRequest)
        fitHeight();
    return filtered;
}

void PrintForm::resizeEvent(QResizeEvent* event)
{
    QScrollArea::resizeEvent(event);
    fitHeight();
}

FieldEditor* PrintForm::editor(const QString& key) const
{
    for (const auto& line : lines_)
        if (line.editor->field().key == key)
            return line.editor;
    return nullptr;
}

QWidget* PrintForm::orderAfter(QWidget* before) const
{
    for (const auto& line : lines_)
        before = line.editor->orderAfter(before);
    return before;
}

void PrintForm::focusField(const QString& key)
{
    auto* chosen = editor(key);
    if (!chosen && !lines_.empty())
        chosen = lines_.front().editor;
    if (!chosen)
        return;
    ensureWidgetVisible(chosen);
    chosen->input()->setFocus(Qt::ShortcutFocusReason);
}

} // namespace washfast::ui
