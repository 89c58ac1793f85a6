// Codes in the order in which a person counts them.
#include "ui/common/natural_order.h"

#include <QString>
#include <gtest/gtest.h>
#include <vector>

namespace WASHFAST_FILE {

using washfast::ui::compareNaturally;

namespace {

int sign(int value)
{
    return (value > 0) - (value < 0);
}

TEST(NaturalOrder, EachOfTheseComesBeforeTheNext)
{
    const std::vector<const char*> ordered { "", "1", "2", "9", "10", "11", "99", "100", "A", "a1", "A2", "a10",
        "A10-1", "a10-2", "B", "M1", "M2", "M10", "M10b", "M20", "ä" };
    for (size_t i = 0; i < ordered.size(); ++i)
        for (size_t j = 0; j < ordered.size(); ++j)
            EXPECT_EQ(sign(compareNaturally(QString::fromUtf8(ordered[i]), QString::fromUtf8(ordered[j]))),
                sign(int(i) - int(j)))
                << ordered[i] << " and " << ordered[j];
}

TEST(NaturalOrder, CaseAndLeadingZerosDoNotCount)
{
    EXPECT_EQ(compareNaturally(u"m007", u"M7"), 0);
    EXPECT_EQ(compareNaturally(u"A1-000", u"a1-0"), 0);
    EXPECT_LT(compareNaturally(u"A01", u"A1b"), 0);
}

TEST(NaturalOrder, NumbersMayBeLongerThanAnyMachineWord)
{
    EXPECT_LT(compareNaturally(u"x99999999999999999999999998", u"x99999999999999999999999999"), 0);
    EXPECT_GT(compareNaturally(u"x100000000000000000000000000", u"x99999999999999999999999999"), 0);
}

} // namespace

} // namespace WASHFAST_FILE
