// How often the search for causes is right, over made-up terms with fixed seeds: what comes out is one JSON object.
//
//     washfast_causes_simulation [TERMS] [SEED]
//
// Every term has twelve recorded factors of all kinds that share some weather. `right`: a cause was named and the
// planted one stands first (of two, either). `wrong`: a cause was named and anything that was not planted stands among
// the names. The rest are tangles (with or without the planted cause in them) and not enough.
#include "core/causes/next_prints.h"
#include "tests/causes/made_up_terms.h"

#include <QJsonDocument>
#include <cstdio>
#include <cstdlib>
#include <functional>

using namespace washfast::causes;
using namespace washfast::causes::made_up;

namespace {

struct Term {
    FactorTable table;
    QStringList planted;
};

struct Count {
    int right = 0, wrong = 0, both = 0, tangle_with = 0, tangle_without = 0, not_enough = 0;
};

constexpr int usual_prints = 20;

FactorTable halved(Draw& draw, int prints, double shared, double unknown = 0.0)
{
    FactorTable table = term(draw, prints, shared, 0.0);
    halve(table, 5);
    if (unknown > 0.0)
        for (auto& factor : table.factors)
            for (std::size_t i = 0; i < table.prints.size(); ++i) {
                if (draw.unit() >= unknown)
                    continue;
                if (factor.kind == Factor::Kind::Choice)
                    factor.texts[i] = QString();
                else
                    factor.numbers[i] = std::nullopt;
            }
    return table;
}

/// The outcome comes from what the factor was, known or not.
Term oneCause(Draw& draw, int prints, double with, double without, double unknown = 0.0)
{
    Term out { term(draw, prints, 0.2), { name(5) } };
    halve(out.table, 5);
    plant(out.table, draw, 5, with, without);
    for (auto& factor : out.table.factors)
        for (std::size_t i = 0; unknown > 0.0 && i < out.table.prints.size(); ++i)
            if (draw.unit() < unknown) {
                if (factor.kind == Factor::Kind::Choice)
                    factor.texts[i] = QString();
                else
                    factor.numbers[i] = std::nullopt;
            }
    return out;
}

Term twoCauses(Draw& draw, int prints)
{
    Term out { halved(draw, prints, 0.2), { name(5), name(6) } };
    for (std::size_t i = 0; i < out.table.prints.size(); ++i) {
        out.table.factors[6].numbers[i] = (i / 2) % 2 == 0 ? 1.0 : 0.0;
        const bool bad = *out.table.factors[5].numbers[i] > 0.0 || *out.table.factors[6].numbers[i] > 0.0;
        out.table.outcome_values[i] = draw.unit() < (bad ? 0.97 : 0.03) ? 1.0 : 0.0;
    }
    return out;
}

Term nothing(Draw& draw, int prints, double shared)
{
    Term out { term(draw, prints, shared), {} };
    failAtRandom(out.table, draw, 0.4);
    return out;
}

Term tangle(Draw& draw, int prints)
{
    Term out = oneCause(draw, prints, 0.97, 0.03);
    out.table.factors[6].numbers = out.table.factors[5].numbers;
    return out;
}

/// Fails by something that shares the weather with what was recorded, and is not in the table itself.
Term notRecorded(Draw& draw, int prints, double shared)
{
    Term out { term(draw, prints, shared), {} };
    Draw other = draw; // the hidden factor is drawn as one more of the same term would be
    for (std::size_t i = 0; i < out.table.prints.size(); ++i) {
        // The weather of a print as its recorded numbers show it, plus what is the factor's own.
        const double seen
            = (*out.table.factors[0].numbers[i] + *out.table.factors[1].numbers[i] + *out.table.factors[2].numbers[i])
            / 3.0;
        const double hidden = shared * seen + std::sqrt(1.0 - shared * shared) * bell(other);
        out.table.outcome_values[i] = other.unit() < (hidden > 0.0 ? 0.95 : 0.05) ? 1.0 : 0.0;
    }
    return out;
}

/// The same, but one recorded number follows what was not recorded with a correlation of 0.6.
Term notRecordedWithAProxy(Draw& draw, int prints)
{
    Term out { term(draw, prints, 0.3), {} };
    for (std::size_t i = 0; i < out.table.prints.size(); ++i) {
        const double hidden = 0.6 * *out.table.factors[0].numbers[i] + 0.8 * bell(draw);
        out.table.outcome_values[i] = draw.unit() < (hidden > 0.0 ? 0.95 : 0.05) ? 1.0 : 0.0;
    }
    return out;
}

/// Sessions that differ in how often prints fail and in their weather; with a cause or without.
Term blocks(Draw& draw, int prints, bool with_cause)
{
    Term out { halved(draw, prints, 0.3), with_cause ? QStringList { name(5) } : QStringList {} };
    for (std::size_t i = 0; i < out.table.prints.size(); ++i) {
        const std::size_t session = i * 3 / out.table.prints.size();
        out.table.blocks.push_back(QStringLiteral("session %1").arg(session));
        out.table.factors[0].numbers[i] = *out.table.factors[0].numbers[i] + 2.0 * static_cast<double>(session);
        const double base = 0.05 + 0.3 * static_cast<double>(session);
        const bool bad = with_cause && *out.table.factors[5].numbers[i] > 0.0;
        out.table.outcome_values[i] = draw.unit() < (bad ? 0.97 : (with_cause ? base / 3.0 : base)) ? 1.0 : 0.0;
    }
    return out;
}

Count over(int terms, std::uint64_t seed, const std::function<Term(Draw&)>& make)
{
    Count count;
    for (int i = 0; i < terms; ++i) {
        Draw draw(seed + static_cast<std::uint64_t>(i));
        const Term one = make(draw);
        const Answer answer = quickly(one.table);
        const auto planted = [&](const QString& factor) { return one.planted.contains(factor); };
        const auto right = std::count_if(answer.factors_named.begin(), answer.factors_named.end(), planted);
        if (answer.verdict == Verdict::NotEnough) {
            ++count.not_enough;
        } else if (answer.verdict == Verdict::Tangle) {
            ++(right > 0 ? count.tangle_with : count.tangle_without);
        } else if (right == answer.factors_named.size()) {
            ++count.right;
            count.both += right > 1 ? 1 : 0;
        } else {
            ++count.wrong;
        }
    }
    return count;
}

/// A tangle, its plan, and the answer when at most four of the planned prints have been made.
void makeNext(FactorTable& table, const NextPrints& plan, Draw& draw, int most)
{
    int made = 0;
    for (const PlannedPrint& print : plan.prints)
        for (int k = 0; k < print.count && print.role == PlannedPrint::Role::Trial && made < most; ++k, ++made) {
            const FactorTable other = term(draw, 1, 0.2);
            for (std::size_t f = 0; f < table.factors.size(); ++f) {
                Factor& factor = table.factors[f];
                if (factor.kind == Factor::Kind::Choice)
                    factor.texts.push_back(other.factors[f].texts[0]);
                else
                    factor.numbers.push_back(other.factors[f].numbers[0]);
                for (const Setting& setting : print.settings)
                    if (setting.factor == factor.name && std::holds_alternative<bool>(setting.value))
                        factor.numbers.back() = std::get<bool>(setting.value) ? 1.0 : 0.0;
            }
            table.prints.push_back(QStringLiteral("N%1").arg(made + 1));
            const bool bad = *table.factors[5].numbers.back() > 0.0;
            table.outcome_values.push_back(draw.unit() < (bad ? 0.97 : 0.03) ? 1.0 : 0.0);
        }
}

struct Resolved {
    int right = 0, wrong = 0, still_tangled = 0, not_enough = 0, no_plan = 0;
};

Resolved resolved(int terms, std::uint64_t seed, int most)
{
    Resolved out;
    for (int i = 0; i < terms; ++i) {
        Draw draw(seed + static_cast<std::uint64_t>(i));
        Term one = tangle(draw, usual_prints);
        const Answer before = quickly(one.table);
        const NextPrints plan = nextPrints(one.table, before);
        if (before.verdict != Verdict::Tangle || plan.trials() == 0) {
            ++out.no_plan;
            continue;
        }
        makeNext(one.table, plan, draw, most);
        const Answer after = quickly(one.table);
        if (after.verdict == Verdict::Cause)
            ++(after.factors_named == one.planted ? out.right : out.wrong);
        else
            ++(after.verdict == Verdict::Tangle ? out.still_tangled : out.not_enough);
    }
    return out;
}

struct Scenario {
    const char* key;
    const char* what;
    std::function<Term(Draw&)> make;
};

} // namespace

int main(int count, char** words)
{
    const int terms = count > 1 ? std::max(1, std::atoi(words[1])) : 1000;
    const std::uint64_t seed = count > 2 ? std::strtoull(words[2], nullptr, 10) : 10'000;
    const std::vector<Scenario> scenarios {
        { "strong", "one cause, fails 97 in 100 with it and 3 without, 10 against 10 prints",
            [](Draw& d) { return oneCause(d, usual_prints, 0.97, 0.03); } },
        { "medium", "one cause, 85 and 20 in 100, 15 against 15 prints",
            [](Draw& d) { return oneCause(d, 30, 0.85, 0.20); } },
        { "medium_60", "the same with 30 against 30 prints", [](Draw& d) { return oneCause(d, 60, 0.85, 0.20); } },
        { "two", "two causes, either is enough, 40 prints", [](Draw& d) { return twoCauses(d, 40); } },
        { "none", "none planted, 4 in 10 fail, 30 prints, shared weather 0.4",
            [](Draw& d) { return nothing(d, 30, 0.4); } },
        { "none_shared", "the same with shared weather 0.7", [](Draw& d) { return nothing(d, 30, 0.7); } },
        { "tangle", "the strong cause and a column that is the same in all 20 prints",
            [](Draw& d) { return tangle(d, usual_prints); } },
        { "not_recorded", "fails by something that was not recorded, shared weather 0.3, 30 prints",
            [](Draw& d) { return notRecorded(d, 30, 0.3); } },
        { "not_recorded_proxy",
            "the same, and one recorded number follows it with a correlation of 0.6: naming that one counts as wrong",
            [](Draw& d) { return notRecordedWithAProxy(d, 30); } },
        { "blocks_cause", "a strong cause, three sessions that differ, 30 prints",
            [](Draw& d) { return blocks(d, 30, true); } },
        { "blocks_none", "no cause, three sessions that differ, 30 prints",
            [](Draw& d) { return blocks(d, 30, false); } },
        { "unknown_strong", "the strong cause, 30 in 100 values unknown, 30 prints",
            [](Draw& d) { return oneCause(d, 30, 0.97, 0.03, 0.3); } },
        { "unknown_none", "none planted, 30 in 100 values unknown, 30 prints",
            [](Draw& d) {
                Term out { term(d, 30, 0.4, 0.3), {} };
                failAtRandom(out.table, d, 0.4);
                return out;
            } },
    };
    QJsonObject out { { QStringLiteral("terms"), terms }, { QStringLiteral("seed"), double(seed) } };
    QJsonObject tables;
    std::fprintf(stderr,
        "| scenario | right | wrong | tangle, cause in it | tangle without | not enough |\n"
        "| --- | --- | --- | --- | --- | --- |\n");
    for (std::size_t s = 0; s < scenarios.size(); ++s) {
        const Scenario& one = scenarios[s];
        const Count found = over(terms, seed + 100'000 * (s + 1), one.make);
        std::fprintf(stderr, "| %s | %d | %d | %d | %d | %d |\n", one.what, found.right, found.wrong, found.tangle_with,
            found.tangle_without, found.not_enough);
        tables.insert(QString::fromLatin1(one.key),
            QJsonObject { { QStringLiteral("what"), QString::fromLatin1(one.what) },
                { QStringLiteral("right"), found.right }, { QStringLiteral("both_named"), found.both },
                { QStringLiteral("wrong"), found.wrong }, { QStringLiteral("tangle_with_cause"), found.tangle_with },
                { QStringLiteral("tangle_without_cause"), found.tangle_without },
                { QStringLiteral("not_enough"), found.not_enough } });
    }
    out.insert(QStringLiteral("scenarios"), tables);
    const Resolved next = resolved(terms, seed + 5'000'000, 4);
    std::fprintf(stderr,
        "\nA tangle and at most four of the planned prints: right %d, wrong %d, still a tangle %d, "
        "not enough %d, no tangle at first %d\n",
        next.right, next.wrong, next.still_tangled, next.not_enough, next.no_plan);
    out.insert(QStringLiteral("next_prints"),
        QJsonObject { { QStringLiteral("right"), next.right }, { QStringLiteral("wrong"), next.wrong },
            { QStringLiteral("still_tangled"), next.still_tangled }, { QStringLiteral("not_enough"), next.not_enough },
            { QStringLiteral("no_tangle_at_first"), next.no_plan } });
    std::printf("%s", QJsonDocument(out).toJson(QJsonDocument::Indented).constData());
    return 0;
}
