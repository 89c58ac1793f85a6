// A wrong year: refused in an import with its line and reason, and named among what contradicts itself.
#include "core/exchange/contradictions.h"
#include "tests/support/import_desk.h"
#include "tests/support/small_notebook.h"

#include <gmock/gmock.h>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::exchange;
using namespace washfast::test;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

namespace {

const QByteArray wrongYear = "print_code,expose_start,expose_end\n"
                             "A1,2026-05-04T10:00:00+02:00,2026-05-04T10:12:00+02:00\n"
                             "A2,2026-05-04T10:00:00+02:00,2062-05-04T10:12:00+02:00\n";

} // namespace

TEST(TooLong, AnExposureOfDecadesIsRefusedInAnImport)
{
    ImportDesk desk;
    EXPECT_EQ(desk.refused(wrongYear),
        QStringList {
            text("Line 3, expose_end: “Exposure ends” (2062-05-04T10:12:00+02:00) is 36 years after “Exposure "
                 "starts” (2026-05-04T10:00:00+02:00); at most 24 hours are plausible.") });
    EXPECT_FALSE(desk.take(wrongYear));
    EXPECT_EQ(desk.prints(), 0);
    EXPECT_EQ(must(desk.take(wrongYear, true)).imported, 1);
}

TEST(TooLong, IsTakenWhenNumbersOfAnySizeAre)
{
    ImportDesk desk;
    desk.options.any_size = true;
    EXPECT_THAT(desk.refused(wrongYear), IsEmpty());
}

TEST(TooLong, EachStationHasItsOwnLimit)
{
    const ImportDesk desk;
    const struct {
        const char* station;
        const char* end;
        bool refused;
    } cases[] = { { "coat", "2026-05-05T10:00:00Z", false }, { "coat", "2026-05-05T10:01:00Z", true },
        { "dry", "2026-05-14T10:00:00Z", false }, { "dry", "2026-05-20T10:00:00Z", true },
        { "hold", "2026-07-20T10:00:00Z", false }, { "hold", "2026-09-20T10:00:00Z", true },
        { "rinse", "2026-05-05T09:00:00Z", false }, { "rinse", "2027-05-04T10:00:00Z", true } };
    for (const auto& one : cases) {
        const QByteArray station(one.station);
        const auto refused = desk.refused("print_code," + station + "_start," + station
            + "_end\nA1,2026-05-04T10:00:00Z," + QByteArray(one.end) + '\n');
        EXPECT_EQ(!refused.isEmpty(), one.refused) << one.station << ' ' << one.end;
        if (one.refused && !refused.isEmpty()) {
            EXPECT_TRUE(refused[0].startsWith(text("Line 2, "))) << refused[0].toStdString();
        }
    }
}

// A strip has several exposures; the print's own fields show the first.
TEST(TooLong, EveryExposureIsLookedAt)
{
    SmallNotebook book;
    const auto print
        = book.print("A1", { { "hold_start", "2026-05-04T11:00:00Z" }, { "hold_end", "2027-05-04T11:00:00Z" } });
    book.add(Entity::Exposure,
        { { "expose_number", 1 }, { "expose_start", "2026-05-04T10:00:00Z" },
            { "expose_end", "2026-05-04T10:05:00Z" } },
        print);
    book.add(Entity::Exposure,
        { { "expose_number", 2 }, { "expose_start", "2026-05-04T10:00:00Z" },
            { "expose_end", "2062-05-04T10:05:00Z" } },
        print);
    std::vector<std::string> found;
    for (const auto& finding : findContradictions(book.notebook()))
        if (finding.says.contains(text("plausible")))
            found.push_back(
                (finding.print + QLatin1Char(' ') + finding.field + QLatin1Char(' ') + finding.says).toStdString());
    EXPECT_THAT(found,
        ElementsAre(testing::StartsWith("A1 hold_end "),
            testing::AllOf(testing::StartsWith("A1 expose_end "), HasSubstr("36 years"))));
}

} // namespace WASHFAST_FILE
