// Damaged tables: whatever is done to a teacher's table, a preview comes back, says something about every row, and what
// it would take can be taken. Seeded, so that a failure can be repeated.
#include "tests/support/import_desk.h"

#include <random>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::exchange;
using namespace washfast::test;

namespace {

using Random = std::mt19937;

size_t below(Random& random, size_t limit)
{
    return limit == 0 ? 0 : size_t(random() % limit);
}

/// Pieces that tables stumble over.
const std::vector<QByteArray>& pieces()
{
    static const std::vector<QByteArray> all { ";", ",", "\t", "\"", "\"\"", "\r\n", "\n", "\r", "\xff", "\xef\xbb\xbf",
        "1e999", "-0", "NaN", "1,250", "1.250", "31.02.2026", "4/5/2026", "24:00", "2026-05-04T10:15+25:00", "~", "?",
        "~?", "≈", "()", "=1+1", "kept; ran off", "print_code", "not_measured", "date", "😀", "\xc2", "é\xcc\x81",
        "9999999999999999999999", ":", ":estimated", "coat_tool:guessed", QByteArray(70, '9'), QByteArray("\0", 1) };
    return all;
}

QByteArray mutated(QByteArray table, Random& random)
{
    const size_t times = 1 + below(random, 12);
    for (size_t i = 0; i < times && !table.isEmpty(); ++i) {
        const auto at = qsizetype(below(random, size_t(table.size())));
        switch (below(random, 6)) {
        case 0:
            table[at] = char(random());
            break;
        case 1:
            table.remove(at, qsizetype(below(random, 40)));
            break;
        case 2:
            table.insert(at, pieces()[below(random, pieces().size())]);
            break;
        case 3: { // a piece of the table somewhere else
            const auto from = qsizetype(below(random, size_t(table.size())));
            table.insert(at, table.mid(from, qsizetype(below(random, 200))));
            break;
        }
        case 4: // in the headings
            table.insert(qsizetype(below(random, size_t(std::min<qsizetype>(table.size(), 800)))),
                pieces()[below(random, pieces().size())]);
            break;
        default:
            table.truncate(at + 1);
        }
    }
    return table;
}

} // namespace

TEST(ImportFuzz, DamagedTablesGiveAPreviewAndWhatIsGoodCanBeTaken)
{
    const auto table = bytesOf(QStringLiteral(WASHFAST_TEST_DATA "/tables/spring_term.csv"));
    ImportDesk empty;
    int taken = 0;
    int refused = 0;
    for (unsigned seed = 1; seed <= 400; ++seed) {
        SCOPED_TRACE(seed);
        Random random(seed);
        const auto bytes = mutated(table, random);
        const auto preview = empty.look(bytes);
        for (const auto& row : preview.rows) {
            ASSERT_EQ(row.state == ImportRow::State::Refused, !row.refusals.empty());
            for (const auto& refusal : row.refusals) {
                ASSERT_GE(refusal.line, 2);
                ASSERT_FALSE(refusal.says.isEmpty());
                ASSERT_LT(refusal.says.size(), 1200);
            }
        }
        if (!preview.faults.isEmpty()) {
            ASSERT_TRUE(preview.rows.empty());
            continue;
        }
        refused += preview.count(ImportRow::State::Refused);
        if (seed % 20 != 0)
            continue;
        ImportDesk desk;
        const auto report = must(desk.take(bytes, true)); // what the preview calls good is good for the store
        ASSERT_EQ(report.imported, preview.count(ImportRow::State::New));
        ASSERT_EQ(desk.prints(), report.imported);
        const auto again = must(desk.take(bytes, true));
        ASSERT_EQ(again.imported, 0);
        taken += report.imported;
    }
    EXPECT_GT(taken, 200) << "the damage leaves something to take";
    EXPECT_GT(refused, 2800) << "and does damage";
}

} // namespace WASHFAST_FILE
