// Several readings of one spot: which one a new one would replace, which one counts for the print, and which prints
// wait for their tone a day after.
#include "core/trial/day_after.h"
#include "core/trial/same_reading.h"
#include "tests/support/small_notebook.h"

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::test;

namespace {

class Readings : public testing::Test {
protected:
    qint64 read(double density, const char* method, const char* channel, Evidence evidence = Evidence::Measured,
        const char* when = "day_after")
    {
        const auto id = book.add(Entity::Reading,
            { { "reading_when", when }, { "reading_where", "deepest" },
                { "reading_density", knownNumber(density, evidence) } },
            print);
        if (*method)
            book.set({ Entity::Reading, id }, "reading_method", method);
        if (*channel)
            book.set({ Entity::Reading, id }, "reading_channel", channel);
        return id;
    }
    [[nodiscard]] qint64 same(const char* method, const char* channel) const
    {
        const auto there = readingsOf(book.notebook(), print);
        const auto* found = sameReading(there,
            { QStringLiteral("day_after"), QStringLiteral("deepest"), QString::fromLatin1(method),
                QString::fromLatin1(channel) });
        return found ? found->id : 0;
    }
    [[nodiscard]] std::optional<double> counted() const
    {
        return PrintReader(book.notebook()).get(book.row(print), u"density_day_after_deepest").number();
    }
    [[nodiscard]] ToneAfter tone() const { return toneAfter(PrintReader(book.notebook()), book.row(print)); }
    [[nodiscard]] static Instant at(const char* time) { return *Instant::fromIso(QString::fromLatin1(time)); }

    SmallNotebook book;
    qint64 print = book.print("A1");
};

} // namespace

TEST_F(Readings, AreTheSameOnlyByTheSameMeansInTheSameChannel)
{
    const auto scan = read(0.98, "scan", "red");
    EXPECT_EQ(same("scan", "red"), scan);
    EXPECT_EQ(same("photo", "red"), 0);
    EXPECT_EQ(same("scan", "visual"), 0);
    EXPECT_EQ(same("", ""), scan) << "what is not said may be either";
    const auto photo = read(1.02, "photo", "red");
    EXPECT_EQ(same("photo", "red"), photo);
    EXPECT_EQ(same("", "red"), scan) << "of two that may be meant the one that counts";
    const auto unsaid = read(0.9, "", "");
    EXPECT_EQ(same("", ""), unsaid);
    EXPECT_EQ(same("scan", "red"), scan);
    EXPECT_EQ(same("by_eye", "blue"), unsaid);
}

TEST_F(Readings, TheBetterOneCountsWhateverCameLast)
{
    read(0.98, "scan", "red");
    read(1.10, "photo", "red", Evidence::Assumed);
    EXPECT_EQ(counted(), 0.98) << "measured before assumed";
    read(1.02, "photo", "red");
    EXPECT_EQ(counted(), 0.98) << "a scan before a photo";
    read(1.30, "densitometer", "visual");
    EXPECT_EQ(counted(), 0.98) << "red, so that both tones are of one channel";
    read(0.96, "scan", "red");
    EXPECT_EQ(counted(), 0.96) << "of equals the later one";
}

TEST_F(Readings, ARowWithoutADensityNeverHidesOneThatHasIt)
{
    read(0.98, "", "");
    book.add(Entity::Reading, { { "reading_when", "day_after" }, { "reading_where", "deepest" } }, print);
    EXPECT_EQ(counted(), 0.98);
}

TEST_F(Readings, TheLastOneCountsWhenNothingIsSaid)
{
    read(0.98, "", "");
    read(0.97, "", "");
    EXPECT_EQ(counted(), 0.97);
}

TEST_F(Readings, ADayAfterIsTheNextDayByTheClockOfTheRinse)
{
    using enum ToneAfter::State;
    EXPECT_EQ(tone().state, NotAsked);
    read(0.98, "", "", Evidence::Measured, "before_rinse");
    EXPECT_EQ(tone().state, Waits);
    EXPECT_FALSE(tone().due(at("2030-01-01T00:00:00Z"))) << "no rinse is recorded";
    book.set({ Entity::Print, print }, "rinse_start", "2024-06-21T23:50:00+02:00");
    EXPECT_FALSE(tone().due(at("2024-06-21T23:59:59+02:00")));
    EXPECT_TRUE(tone().due(at("2024-06-22T00:00:00+02:00")));
    book.set({ Entity::Print, print }, "rinse_end", "2024-06-22T00:10:00+02:00");
    EXPECT_FALSE(tone().due(at("2024-06-22T23:59:59+02:00"))) << "from its end";
    EXPECT_TRUE(tone().due(at("2024-06-22T22:00:00Z")));
    const auto nothing = book.add(Entity::Reading,
        { { "reading_when", "day_after" }, { "reading_where", "deepest" }, { "reading_method", "nothing" } }, print);
    EXPECT_EQ(tone().state, NothingToRead);
    EXPECT_GT(nothing, 0);
    read(0.1, "", "");
    EXPECT_EQ(tone().state, Read);
}

TEST_F(Readings, ADayBefore1970EndsAtMidnightToo)
{
    read(0.98, "", "", Evidence::Measured, "before_rinse");
    book.set({ Entity::Print, print }, "rinse_start", "1969-06-21T10:00:00Z");
    EXPECT_EQ(tone().from, at("1969-06-22T00:00:00Z"));
}

} // namespace WASHFAST_FILE
