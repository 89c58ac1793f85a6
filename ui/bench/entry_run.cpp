#include "ui/bench/entry_run.h"

#include "ui/bench/words.h"

#include <algorithm>

namespace washfast::ui {

namespace {

bool hasBegun(const SheetStates& states, Station station)
{
    const auto stage = stateAt(states, station).stage;
    return stage == Stage::Running || stage == Stage::Done;
}

bool isRinsed(const SheetStates& states, const ToneAfter& tone)
{
    return hasBegun(states, Station::Rinse) || tone.state == ToneAfter::State::Read
        || tone.state == ToneAfter::State::NothingToRead;
}

bool isThere(const Desk& desk, qint64 print, const QString& field)
{
    return desk.get(print, field).has();
}

EntryTurn massTurn(const Desk& desk, qint64 print, const SheetStates& states)
{
    const auto state = weighStateFor(states);
    const bool again = state == QLatin1String("drying"); // a row of them makes the drying curve
    return { print, weighId(state), again || !isThere(desk, print, QStringLiteral("mass_%1_g").arg(state)) };
}

EntryTurn toneTurn(const Desk& desk, qint64 print, const SheetStates& states, const ToneAfter& tone)
{
    EntryTurn turn { print, readIdFor(states) };
    const auto parts = turn.entry_id.split(QLatin1Char(':'));
    turn.missing = tone.state != ToneAfter::State::NothingToRead
        && !isThere(desk, print, QStringLiteral("density_%1_%2").arg(parts[1], parts[2]));
    if (parts[1] == QLatin1String("day_after") && turn.missing && tone.from && desk.now() < *tone.from)
        turn.early = tone.from;
    return turn;
}

ToneAfter toneOf(const Desk& desk, qint64 print)
{
    return toneAfter(desk.reader(), desk.notebook().prints().find(print));
}

QString phraseOf(const Catalogue& catalogue, const Entry& entry, int n)
{
    switch (entry.kind) {
    case Entry::Kind::Weighing:
        return BenchWords::tr("%n masses, %1", nullptr, n)
            .arg(catalogue.columnField(Entity::Weighing, u"weigh_state").choiceLabel(entry.weigh_state));
    case Entry::Kind::Reading: {
        const auto when = catalogue.columnField(Entity::Reading, u"reading_when").choiceLabel(entry.when);
        if (entry.where == QLatin1String("deepest"))
            return BenchWords::tr("%n readings, %1", nullptr, n).arg(when);
        return BenchWords::tr("%n readings, %1, %2", nullptr, n)
            .arg(when, catalogue.columnField(Entity::Reading, u"reading_where").choiceLabel(entry.where));
    }
    case Entry::Kind::Light:
    case Entry::Kind::PrintField:
        break;
    }
    return BenchWords::tr("%1, %2").arg(entry.label, BenchWords::prints(n));
}

} // namespace

bool EntryRun::mixed() const
{
    return std::any_of(
        turns.begin(), turns.end(), [&](const EntryTurn& turn) { return turn.entry_id != turns.front().entry_id; });
}

EntryTurn turnOf(const Desk& desk, qint64 print, const SheetStates& states, LackOf lack)
{
    const auto tone = toneOf(desk, print);
    if (lack == LackOf::Masses || (lack == LackOf::Anything && !wasInLight(states) && !isRinsed(states, tone)))
        return massTurn(desk, print, states);
    return toneTurn(desk, print, states, tone);
}

EntryRun runOf(const Desk& desk, const RunWanted& wanted, const std::function<const SheetStates&(qint64)>& states)
{
    EntryRun run;
    std::vector<EntryTurn> all;
    for (const auto print : wanted.prints)
        all.push_back(turnOf(desk, print, states(print), wanted.lack));
    const auto waits = [&](const EntryTurn& turn) { return turn.missing && toneOf(desk, turn.print).waits(); };
    // A print of which no tone was read is passed over among those that wait for their second one.
    const bool only_waiting = wanted.to_the_end && !all.empty() && (waits(all.front()) || !all.front().missing)
        && std::any_of(all.begin(), all.end(), waits);
    const auto afterthought = [&](const EntryTurn& turn) {
        return turn.entry_id.startsWith(QLatin1String("read:day_after")) && !waits(turn);
    };
    for (size_t i = 0; i < all.size(); ++i) {
        if (i == 0 && wanted.first_stays)
            run.turns.push_back(all[i]);
        else if (!all[i].missing)
            ++run.complete;
        else if (!(only_waiting && afterthought(all[i])))
            run.turns.push_back(all[i]);
    }
    if (run.turns.empty()) {
        run.turns = std::move(all);
        run.complete = 0;
    }
    return run;
}

QString runLabel(const Catalogue& catalogue, const std::vector<EnteredOne>& entered, const QString& code)
{
    std::vector<std::pair<const Entry*, QVector<qint64>>> kinds;
    for (const auto& one : entered) {
        auto kind = std::find_if(kinds.begin(), kinds.end(), [&](const auto& k) { return k.first == one.entry; });
        if (kind == kinds.end())
            kind = kinds.insert(kinds.end(), { one.entry, {} });
        if (!kind->second.contains(one.print))
            kind->second << one.print;
    }
    if (kinds.size() == 1 && kinds.front().second.size() == 1)
        return BenchWords::tr("%1, %2").arg(kinds.front().first->label, code);
    QStringList phrases;
    for (const auto& [entry, prints] : kinds)
        phrases << phraseOf(catalogue, *entry, int(prints.size()));
    return phrases.join(QStringLiteral("; "));
}

QString replaceQuestion(const Replacing& replacing)
{
    constexpr qsizetype shown = 5;
    auto text = BenchWords::tr("%1, %2: %3 is recorded. You entered %4.")
                    .arg(replacing.print, replacing.field, replacing.old_value, replacing.new_value);
    const auto more = replacing.others.size();
    if (more == 0)
        return text;
    auto named = replacing.others.mid(0, shown).join(QStringLiteral(", "));
    if (more > shown)
        named = BenchWords::tr("%1 and %n more", nullptr, int(more - shown)).arg(named);
    return text + QStringLiteral("\n\n")
        + BenchWords::tr("Further prints of this run have a value too: %1. Your answer is used for them as well.")
              .arg(named);
}

} // namespace washfast::ui
