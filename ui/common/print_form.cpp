#include "ui/common/print_form.h"

#include "core/quantity/value_text.h"
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

/// Whether values that differ from print to print, so that the form could not show them, may be replaced.
bool PrintForm::mayReplace(const Line& line, const Known& value)
{
    constexpr qsizetype shown = 5;
    const auto& field = line.editor->field();
    QStringList there;
    bool alike = true;
    for (size_t i = 0; i < line.seen.size(); ++i) {
        alike = alike && line.seen[i].value == line.seen.front().value;
        if (line.seen[i].has() && line.seen[i].value != value.value)
            there << desk_.notebook().nameOf({ Entity::Print, prints_[qsizetype(i)] }) + QLatin1Char(' ')
                    + displayText(field, line.seen[i], locale());
    }
    if (alike || there.isEmpty() || !dialogs_)
        return true;
    const auto all = int(there.size());
    auto named = there.mid(0, shown).join(QStringLiteral(", "));
    if (all > shown)
        named = tr("%1 and %n more", nullptr, int(all - shown)).arg(named);
    const auto typed = value.has() ? displayText(field, value, locale()) : tr("nothing");
    const auto question
        = tr("%1 is recorded already: %2. You entered %3 for all %n prints.", nullptr, int(prints_.size()))
              .arg(field.label, named, typed);
    return dialogs_->question(this, tr("Different values are recorded"), question,
               { tr("Keep what is recorded"), tr("Replace all of them") })
        == 1;
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
    const auto seen = line.seen;
    if (!keep(field, value)) {
        refresh();
        return;
    }
    const auto prints = prints_;
    const bool replace = mayReplace(line, value);
    QVector<qsizetype> goes_to;
    for (qsizetype i = 0; i < prints.size(); ++i)
        if (replace || !seen[size_t(i)].has())
            goes_to << i;
    if (goes_to.isEmpty()
        || !desk_.perform(tr("%1, %n print(s)", nullptr, int(goes_to.size())).arg(field.label),
            [&](store::Writer& writer) -> Outcome {
                for (const auto i : std::as_const(goes_to))
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
