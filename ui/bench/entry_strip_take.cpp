// What the strip does with a number that was typed: asks where one is recorded already, writes it as a step of the run,
// and tells what was entered.
#include "core/quantity/value_text.h"
#include "ui/bench/entry_strip.h"
#include "ui/bench/words.h"

#include <QComboBox>
#include <QLineEdit>
#include <algorithm>
#include <set>

namespace washfast::ui {

std::vector<EntryStrip::Written> EntryStrip::standing() const
{
    auto all = written_;
    std::erase_if(all, [this](const Written& one) { return !desk_.isDone(one.step); });
    return all;
}

bool EntryStrip::isOwn(qint64 print, const Entry& entry) const
{
    const auto all = standing();
    return std::any_of(
        all.begin(), all.end(), [&](const Written& one) { return one.print == print && one.entry == &entry; });
}

QStringList EntryStrip::othersWithValue() const
{
    QStringList others;
    for (const auto& turn : turns_) {
        const auto* of = what_->currentData().toString() == missingId() ? find(turn.entry_id) : &entry();
        if (turn.print == print() || !of || isOwn(turn.print, *of))
            continue;
        if (const auto held = heldBy(desk_, turn.print, *of, readHow()); held.value.has())
            others << model_.code(turn.print) + QLatin1Char(' ') + displayText(*of->field, held.value, locale());
    }
    return others;
}

bool EntryStrip::mayReplace(const Held& held, const Known& value)
{
    const auto& now = entry();
    if (answer_ == Answer::NotAsked) {
        const auto shown = [&](const Known& known) {
            const auto text = displayText(*now.field, known, locale());
            return now.field->unit.isEmpty() ? text : text + QLatin1Char(' ') + now.field->unit;
        };
        auto old_value = shown(held.value);
        if (!held.source.isEmpty())
            old_value = tr("%1 (%2)").arg(old_value, held.source);
        const Replacing replacing { model_.code(print()), now.label, old_value, shown(value), othersWithValue() };
        const auto answer = dialogs_.question(this, tr("A value is there already"), replaceQuestion(replacing),
            { tr("Keep what is recorded"), tr("Replace it") });
        answer_ = answer == 1 ? Answer::Replace : Answer::Keep;
        line_->setFocus();
    }
    return answer_ == Answer::Replace;
}

void EntryStrip::take()
{
    const auto& now = entry();
    const auto typed = line_->text().trimmed();
    if (typed.isEmpty()) { // leaves the print as it is
        complain({}, false);
        go(1);
        return;
    }
    if (concerned().isEmpty()) {
        complain(tr("No sheet is being exposed."), true);
        return;
    }
    const bool dash = typed == QLatin1String("-") || typed == QStringLiteral("–");
    if (dash && now.id == readId(QStringLiteral("day_after"), QStringLiteral("deepest"))) {
        takeOne({}, true);
        return;
    }
    const auto parsed = parseTyped(*now.field, typed, locale(), desk_.now().toDateTime());
    if (!parsed) {
        complain(parsed.error().says, true);
        line_->selectAll();
        return;
    }
    if (now.kind == Entry::Kind::Light)
        takeLight(*parsed);
    else
        takeOne(*parsed, false);
}

void EntryStrip::takeLight(const Known& value)
{
    const auto whom = concerned();
    const auto code = whom.size() == 1 ? model_.code(whom.front()) : BenchWords::prints(int(whom.size()));
    const auto& now = entry();
    light_taken_ = desk_.perform(tr("%1, %2").arg(now.label, code), [&](store::Writer& writer) -> Outcome {
        for (const auto id : whom)
            if (auto written = writeEntry(writer, id, now, value, {}, {}, desk_.now()); !written)
                return written;
        return Done {};
    });
    if (light_taken_) // else the window says why; what was typed stays
        go(1);
}

void EntryStrip::takeOne(const Known& value, bool nothing_to_read)
{
    const auto& now = entry();
    const auto whom = print();
    const auto code = model_.code(whom);
    const auto held = heldBy(desk_, whom, now, readHow());
    const auto shown = [&](const Known& known) { return displayText(*now.field, known, locale()); };
    const auto pass = [&](const QString& why) {
        line_->clear();
        complain(why, false);
        go(1);
    };
    if (held.value.has() && nothing_to_read) {
        complain(tr("%1 has a reading of %2. Remove it on the print's page first.").arg(code, shown(held.value)), true);
        return;
    }
    if (held.value.has() && held.value == value)
        return pass(tr("%1: %2 is recorded already.").arg(code, shown(value)));
    if (held.value.has() && !isOwn(whom, now) && !mayReplace(held, value)) {
        ++kept_;
        return pass(tr("%1: %2 was kept, %3 was not entered.").arg(code, shown(held.value), shown(value)));
    }
    std::vector<EnteredOne> all;
    for (const auto& one : standing())
        all.push_back({ one.print, one.entry });
    all.push_back({ whom, &now });
    const auto step
        = desk_.performInRun(run_, runLabel(desk_.catalogue(), all, code), [&](store::Writer& writer) -> Outcome {
              return nothing_to_read
                  ? enterNothingToRead(writer, whom, desk_.now())
                  : writeEntry(writer, whom, now, value, readHow().method, readHow().channel, desk_.now(), held.value);
          });
    if (!step)
        return; // the window says why; what was typed stays
    if (*step > 0) {
        run_ = run_ ? run_ : *step;
        written_.push_back({ *step, whom, &now, tr("%1, %2").arg(now.label, code) });
        std::map<qint64, QString> labels;
        for (const auto& one : written_)
            labels[one.step] = one.label;
        desk_.setOpenRun(run_, std::move(labels));
    }
    const auto number = value.number();
    const auto doubt
        = number && now.field->kind == Kind::Number ? outsideRange(*now.field, *number, locale()) : std::nullopt;
    pass(doubt ? tr("%1: %2").arg(code, *doubt) : QString());
}

void EntryStrip::finish()
{
    const auto all = standing();
    std::vector<EnteredOne> entered;
    std::set<qint64> prints;
    for (const auto& one : all) {
        entered.push_back({ one.print, one.entry });
        prints.insert(one.print);
    }
    QStringList said;
    if (light_taken_)
        said << tr("The light reading was entered.");
    else if (!all.empty()) {
        const bool alike
            = std::all_of(all.begin(), all.end(), [&](const Written& one) { return one.entry == all.front().entry; });
        said << (alike ? tr("%1 entered for %2.").arg(all.front().entry->label, BenchWords::prints(int(prints.size())))
                       : tr("Entered: %1.").arg(runLabel(desk_.catalogue(), entered, model_.code(all.front().print))));
    }
    if (kept_ > 0)
        said << tr("%n values that had been recorded before were kept.", nullptr, kept_);
    if (!said.isEmpty())
        Q_EMIT say(said.join(QLatin1Char(' ')));
    endRun();
    line_->clear();
    hide();
    Q_EMIT closed();
}

void EntryStrip::endRun()
{
    if (run_ != 0)
        desk_.setOpenRun(0);
    run_ = 0;
    written_.clear();
    answer_ = Answer::NotAsked;
    kept_ = 0;
    light_taken_ = false;
}

} // namespace washfast::ui
