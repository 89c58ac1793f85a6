// What the keys of the Bench do.
#include "ui/bench/bench_model.h"
#include "ui/bench/bench_view.h"
#include "ui/bench/entry_strip.h"
#include "ui/bench/form_panel.h"
#include "ui/bench/words.h"

#include <algorithm>

namespace washfast::ui {

QVector<qint64> BenchView::chosen() const
{
    QVector<int> rows;
    for (const auto& index : table_->selectionModel()->selectedRows())
        rows << index.row();
    if (rows.isEmpty() && table_->currentIndex().isValid())
        rows << table_->currentIndex().row();
    std::sort(rows.begin(), rows.end());
    QVector<qint64> prints;
    for (const int row : rows)
        prints << model_->printAt(row);
    return prints;
}

void BenchView::choose(const QVector<qint64>& prints)
{
    QItemSelection rows;
    int first = -1;
    for (const auto print : prints) {
        const int row = model_->rowOf(print);
        if (row < 0)
            continue;
        rows.select(model_->index(row, 0), model_->index(row, BenchModel::ColumnCount - 1));
        first = first < 0 ? row : std::min(first, row);
    }
    if (first < 0)
        return;
    const int column = table_->currentIndex().isValid() ? table_->currentIndex().column() : int(BenchModel::Coat);
    table_->selectionModel()->setCurrentIndex(model_->index(first, column), QItemSelectionModel::NoUpdate);
    table_->selectionModel()->select(rows, QItemSelectionModel::ClearAndSelect);
    table_->scrollTo(model_->index(first, column));
}

Station BenchView::stationNow() const
{
    return BenchModel::stationOf(table_->currentIndex().column()).value_or(Station::About);
}

QString BenchView::whom(const QVector<qint64>& prints) const
{
    return prints.size() == 1 ? model_->code(prints.front()) : BenchWords::prints(int(prints.size()));
}

CellState BenchView::leadingState() const
{
    const auto station = stationNow();
    const auto prints = chosen();
    if (station == Station::About || prints.isEmpty())
        return {};
    const qint64 current = model_->printAt(table_->currentIndex().row());
    const int row = prints.contains(current) ? table_->currentIndex().row() : model_->rowOf(prints.front());
    return stateAt(model_->states(row), station);
}

PressPlan BenchView::plan() const
{
    const auto station = stationNow();
    if (station == Station::About || !table_->currentIndex().isValid())
        return {};
    std::vector<Chosen> all;
    for (const auto print : chosen())
        all.push_back({ print, stateAt(model_->states(model_->rowOf(print)), station) });
    return planPress(station, leadingState(), all);
}

bool BenchView::mayWrite()
{
    if (desk.writable())
        return true;
    Q_EMIT say(tr("This notebook can be read, not changed."));
    return false;
}

void BenchView::answer(BenchTable::Ask what, const QString& text)
{
    using Ask = BenchTable::Ask;
    switch (what) {
    case Ask::Press:
        return press();
    case Ask::Touch:
        return touch(text.toInt());
    case Ask::Type:
        return enterRows(LackOf::Tones, text);
    case Ask::Form:
        return openForm(true);
    case Ask::Page:
        return openPage();
    case Ask::Remove:
        return remove();
    case Ask::NewPrint:
        return newPrints(1);
    case Ask::Weigh:
        return weigh();
    case Ask::Light:
        return readLight();
    case Ask::RowByRow:
        return enterRows(stationNow() == Station::Read ? LackOf::Tones : LackOf::Anything);
    case Ask::Alike:
        return chooseAlike();
    case Ask::Leave:
        form_->hide();
        return;
    }
}

QString BenchView::dampWords(Station station, const QVector<qint64>& prints) const
{
    if (station != Station::Expose && station != Station::Rinse)
        return {};
    const auto next = station == Station::Rinse ? drying::NextStep::Rinse : drying::NextStep::Exposure;
    QStringList codes;
    QString first;
    for (const auto print : prints) {
        const int row = desk.notebook().prints().find(print);
        if (row < 0)
            continue;
        if (const auto said = dampAt(desk.reader(), row, desk.now(), next, &model_->learnt())) {
            first = codes.isEmpty() ? *said : first;
            codes << model_->code(print);
        }
    }
    if (codes.size() < 2)
        return first;
    return tr("%1: %2 Damp as well: %3.").arg(codes.front(), first, codes.mid(1).join(QStringLiteral(", ")));
}

void BenchView::press()
{
    if (!mayWrite())
        return;
    const auto station = stationNow();
    if (station == Station::About) {
        Q_EMIT say(tr("Choose a station with the right arrow; Space starts and ends it."));
        return;
    }
    const auto what = plan();
    if (what.press == Press::Nothing) {
        if (station == Station::Read)
            enterRows(LackOf::Tones);
        else
            Q_EMIT say(pressRefusal(leadingState(), station));
        return;
    }
    const auto now = desk.now();
    const auto damp = what.press == Press::End ? QString() : dampWords(station, what.prints);
    const auto label = pressLabel(what.press, station, int(what.prints.size()), whom(what.prints));
    const bool done = desk.perform(label, [&](store::Writer& writer) -> Outcome {
        for (const auto print : what.prints) {
            auto written = what.press == Press::End ? endStation(writer, print, station, now)
                                                    : startStation(writer, print, station, now);
            if (!written)
                return written;
        }
        return Done {};
    });
    if (!done)
        return;
    const auto time = locale().toString(now.toDateTime().time(), QLocale::ShortFormat);
    auto sentence = tr("%1, at %2.").arg(label, time);
    if (what.left_alone > 0)
        sentence += QLatin1Char(' ')
            + tr("In another state and left as they are: %1.").arg(BenchWords::prints(what.left_alone));
    if (!damp.isEmpty())
        sentence += QLatin1Char(' ') + damp;
    Q_EMIT say(sentence);
}

void BenchView::touch(int digit)
{
    if (!mayWrite())
        return;
    const auto& field = desk.catalogue().columnField(Entity::Touch, u"touch_state");
    if (digit < 1 || digit > int(field.choices.size()))
        return;
    const auto& choice = field.choices[size_t(digit) - 1];
    QVector<qint64> prints;
    int wet = 0;
    for (const auto print : chosen()) {
        const auto rinse = stateAt(model_->states(model_->rowOf(print)), Station::Rinse).stage;
        if (rinse == Stage::Running || rinse == Stage::Done)
            ++wet;
        else
            prints << print;
    }
    if (prints.isEmpty()) {
        Q_EMIT say(tr("The touch of a coat says something before the rinse only."));
        return;
    }
    const auto now = desk.now();
    const auto label = tr("Touch: %1, %2").arg(choice.label, whom(prints));
    const bool done = desk.perform(label, [&](store::Writer& writer) -> Outcome {
        for (const auto print : prints)
            if (auto written = addTouch(writer, print, choice.key, now); !written)
                return written;
        return Done {};
    });
    if (done)
        Q_EMIT say(wet > 0 ? tr("%1. Rinsed already and left as they are: %2.").arg(label, BenchWords::prints(wet))
                           : label + QLatin1Char('.'));
}

void BenchView::openForm(bool focus)
{
    const auto prints = chosen();
    if (prints.isEmpty())
        return;
    form_->show(stationNow(), prints, whom(prints));
    if (focus)
        form_->focusFirst();
}

void BenchView::openPage()
{
    if (table_->currentIndex().isValid())
        Q_EMIT openPrint(model_->printAt(table_->currentIndex().row()));
}

void BenchView::remove()
{
    const auto prints = chosen();
    if (prints.isEmpty() || !mayWrite())
        return;
    const auto answer = dialogs.question(this, tr("Remove %1").arg(whom(prints)),
        tr("Remove %1 with all that was logged for it? Ctrl+Z brings it back.").arg(whom(prints)),
        { tr("Remove"), tr("Keep") });
    if (answer != 0)
        return;
    const int row = table_->currentIndex().row();
    const int column = table_->currentIndex().column();
    const bool done = desk.perform(tr("Remove %1").arg(whom(prints)), [&](store::Writer& writer) -> Outcome {
        for (const auto print : prints)
            if (auto removed = writer.remove({ Entity::Print, print }); !removed)
                return removed;
        return Done {};
    });
    if (done && model_->rowCount() > 0)
        table_->goTo(model_->index(std::min(row, model_->rowCount() - 1), column));
    arrive();
}

QVector<qint64> BenchView::rowsToEnter() const
{
    const auto prints = chosen();
    if (prints.size() > 1 || !table_->currentIndex().isValid())
        return prints;
    // With one row chosen, from there to the end.
    return model_->prints().mid(table_->currentIndex().row());
}

void BenchView::enterRows(LackOf lack, const QString& typed)
{
    const auto prints = rowsToEnter();
    if (prints.isEmpty() || !mayWrite())
        return;
    const bool one_by_one = chosen().size() > 1;
    entry_->begin({ prints, lack, !one_by_one, !typed.isEmpty() }, typed);
    if (const int row = model_->rowOf(entry_->print()); row >= 0)
        table_->selectionModel()->setCurrentIndex(
            model_->index(row, table_->currentIndex().column()), QItemSelectionModel::NoUpdate);
}

void BenchView::weigh()
{
    enterRows(LackOf::Masses);
}

void BenchView::readLight()
{
    if (!mayWrite())
        return;
    QVector<qint64> exposed;
    for (const auto print : model_->prints())
        if (stateAt(model_->states(model_->rowOf(print)), Station::Expose).stage == Stage::Running)
            exposed << print;
    if (exposed.isEmpty()) {
        Q_EMIT say(tr("No sheet is being exposed, so there is nothing to read the light for."));
        return;
    }
    entry_->beginLight();
}

void BenchView::chooseAlike()
{
    const auto station = stationNow();
    if (station == Station::About || !table_->currentIndex().isValid())
        return;
    const auto wanted = stateAt(model_->states(table_->currentIndex().row()), station);
    QItemSelection rows;
    int n = 0;
    for (int row = 0; row < model_->rowCount(); ++row) {
        const auto& state = stateAt(model_->states(row), station);
        if (state.stage != wanted.stage || state.next != wanted.next)
            continue;
        rows.select(model_->index(row, 0), model_->index(row, BenchModel::ColumnCount - 1));
        ++n;
    }
    table_->selectionModel()->select(rows, QItemSelectionModel::ClearAndSelect);
    Q_EMIT say(tr("%1 chosen.").arg(BenchWords::prints(n)));
}

void BenchView::backToTable()
{
    arrive();
}

} // namespace washfast::ui
