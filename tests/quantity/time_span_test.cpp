// How long lies between the two times of a station, and which of them cannot be right.
#include "core/quantity/catalogue.h"
#include "core/quantity/time_span.h"

#include <gtest/gtest.h>

namespace WASHFAST_FILE {

using namespace washfast;

namespace {

constexpr double day = 24 * 60;

Instant at(const char* iso)
{
    return Instant::fromIso(std::string_view(iso)).value_or(Instant {});
}

} // namespace

TEST(TimeSpan, IsSpokenInTheLargestUnitOfWhichThereAreTwo)
{
    EXPECT_EQ(spanText(40).toStdString(), "40 minutes");
    EXPECT_EQ(spanText(24 * 60).toStdString(), "24 hours");
    EXPECT_EQ(spanText(30 * 60).toStdString(), "30 hours");
    EXPECT_EQ(spanText(3 * day).toStdString(), "3 days");
    EXPECT_EQ(spanText(92 * day).toStdString(), "92 days");
    EXPECT_EQ(spanText(36 * 365.25 * day).toStdString(), "36 years");
    EXPECT_EQ(spanText(1e18).toStdString(), "1000000 years") << "no number is too large";
}

TEST(TimeSpan, EveryStationHasAnEndThatCanBeTooLate)
{
    const auto catalogue = standardCatalogue();
    const std::pair<const char*, double> ends[] = { { "coat_end", 24 }, { "dry_end", 14 * 24 }, { "expose_end", 24 },
        { "hold_end", 92 * 24 }, { "rinse_end", 24 } };
    for (const auto& [key, most_h] : ends) {
        const auto* field = catalogue.findPrintField(QString::fromLatin1(key));
        ASSERT_NE(field, nullptr) << key;
        ASSERT_TRUE(field->began) << key;
        EXPECT_EQ(field->began->most_h, most_h) << key;
        EXPECT_NE(catalogue.findPrintField(field->began->column), nullptr) << key;
        const auto start = at("2026-05-04T10:00:00Z");
        Instant end = start;
        end.ms_utc += qint64(most_h * 3'600'000);
        EXPECT_FALSE(endsTooLate(*field, start, end)) << key;
        end.ms_utc += 1000;
        EXPECT_TRUE(endsTooLate(*field, start, end)) << key;
        EXPECT_FALSE(endsTooLate(*field, end, start)) << key << ": before its start is another mistake";
        EXPECT_FALSE(endsTooLate(*field, std::nullopt, end)) << key;
        EXPECT_FALSE(endsTooLate(*field, start, std::nullopt)) << key;
    }
}

TEST(TimeSpan, TheSentenceHasBothTimesAndTheLimit)
{
    const auto catalogue = standardCatalogue();
    const auto& end = *catalogue.findPrintField(u"expose_end");
    EXPECT_EQ(tooLateSentence(end, QStringLiteral("Exposure starts"), at("2026-05-04T10:00:00+02:00"),
                  at("2062-05-04T10:12:00+02:00"))
                  .toStdString(),
        "“Exposure ends” (2062-05-04T10:12:00+02:00) is 36 years after “Exposure starts” (2026-05-04T10:00:00+02:00); "
        "at most 24 hours are plausible.");
}

} // namespace WASHFAST_FILE
