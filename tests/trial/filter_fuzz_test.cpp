// The filter line under texts that nobody would write, and the laws of its three-valued logic on random prints.
#include "core/trial/filter.h"

#include "tests/support/small_notebook.h"

#include <random>

namespace WASHFAST_FILE {

using namespace washfast;
using test::SmallNotebook;

namespace {

constexpr int prints = 60;

class FilterFuzz : public testing::Test {
protected:
    FilterFuzz()
    {
        const auto m7 = book.add(Entity::Mix, { { "mix_code", "M7" } });
        const auto m8 = book.add(Entity::Mix, { { "mix_code", "M8" } });
        const char* tools[] = { "brush", "rod", "spray" };
        const char* outcomes[] = { "kept", "pale; ran_off", "ran_off", "stained" };
        const auto sometimes = [&] { return random() % 3 != 0; };
        for (int i = 0; i < prints; ++i) {
            const auto print = book.print(QStringLiteral("P%1").arg(i).toUtf8().constData());
            const Ref ref(Entity::Print, print);
            if (sometimes())
                book.set(ref, "print_mix", random() % 2 == 0 ? m7 : m8);
            if (sometimes())
                book.set(ref, "coat_volume_ml", int(random() % 10) / 4.0);
            if (sometimes())
                book.set(ref, "dry_covered", random() % 2 == 0);
            if (sometimes())
                book.set(ref, "coat_tool", tools[random() % 3]);
            if (sometimes())
                book.set(ref, "print_outcome", outcomes[random() % 4]);
            if (sometimes())
                book.set(ref, "print_notes", random() % 2 == 0 ? "rain and sun" : "Wind");
            if (sometimes())
                book.set(ref, "coat_start",
                    Instant { 1'777'600'000'000 + qint64(random() % 200'000'000), (int(random() % 27) - 12) * 3600 });
        }
        columns = std::make_unique<PrintColumns>(book.notebook());
    }

    [[nodiscard]] std::vector<char> shown(const QString& text) const
    {
        const auto parsed = parseFilter(text, book.catalogue());
        EXPECT_TRUE(parsed.ok()) << text.toStdString() << ": " << (parsed.ok() ? "" : parsed.fault->says.toStdString());
        return parsed.filter.matches(*columns);
    }

    /// A comparison or a word drawn at random.
    QString condition()
    {
        static const char* const all[] = { "coat_volume_ml < %1", "coat_volume_ml >= %1", "coat_volume_ml = %1",
            "coat_volume_ml != %1", "coat_volume_ml from %1 to 9", "coat_tool = brush", "coat_tool has r",
            "print_outcome has \"ran off\"", "print_outcome = kept", "print_notes has sun", "print_notes != wind",
            "mix_code = M7", "dry_covered = yes", "coat_start > 2026-05-02", "coat_start = 2026-05-01",
            "coat_start < 12:00", "is_kept = no", "kept < %1", "coat_tool is known", "coat_volume_ml is unknown",
            "rain", "\"M7\"", "p1" };
        const QString text = QLatin1String(all[random() % std::size(all)]);
        return text.contains(QLatin1String("%1")) ? text.arg(int(random() % 10) / 4.0) : text;
    }
    /// A condition of conditions.
    QString nested(int depth)
    {
        if (depth == 0 || random() % 4 == 0)
            return condition();
        const QString left = nested(depth - 1), right = nested(depth - 1);
        switch (random() % 4) {
        case 0:
            return QStringLiteral("(%1) and (%2)").arg(left, right);
        case 1:
            return QStringLiteral("(%1) or (%2)").arg(left, right);
        case 2:
            return QStringLiteral("(%1) (%2)").arg(left, right);
        default:
            return QStringLiteral("not (%1)").arg(left);
        }
    }

    std::mt19937 random { 20260504 };
    SmallNotebook book;
    std::unique_ptr<PrintColumns> columns;
};

std::vector<char> either(const std::vector<char>& a, const std::vector<char>& b)
{
    std::vector<char> out;
    for (size_t i = 0; i < a.size(); ++i)
        out.push_back(a[i] != 0 || b[i] != 0 ? 1 : 0);
    return out;
}

} // namespace

TEST_F(FilterFuzz, TwentyThousandMuddlesAreReadOrRefusedWithAPlace)
{
    const QStringList pieces { QStringLiteral("kept"), QStringLiteral("coat_volume_ml"), QStringLiteral("coat_start"),
        QStringLiteral("print_outcome"), QStringLiteral("dry_covered"), QStringLiteral("mix_code"), QStringLiteral("<"),
        QStringLiteral("<="), QStringLiteral("="), QStringLiteral("!="), QStringLiteral("!"), QStringLiteral("≥"),
        QStringLiteral("("), QStringLiteral(")"), QStringLiteral("\""), QStringLiteral("“"), QStringLiteral("and"),
        QStringLiteral("or"), QStringLiteral("not"), QStringLiteral("has"), QStringLiteral("is"),
        QStringLiteral("known"), QStringLiteral("unknown"), QStringLiteral("from"), QStringLiteral("to"),
        QStringLiteral("2026-05-01"), QStringLiteral("10:15"), QStringLiteral("0.6"), QStringLiteral("1,250"),
        QStringLiteral("mL"), QStringLiteral("yes"), QStringLiteral("M7"), QStringLiteral("rain"), QStringLiteral(";"),
        QStringLiteral("-"), QStringLiteral("1e999"), QStringLiteral("%1"), QString(QChar(0)), QString(QChar(0xd83d)),
        QStringLiteral("é"), QStringLiteral("  ") };
    int read = 0, refused = 0;
    for (int i = 0; i < 20'000; ++i) {
        QString text;
        for (int n = int(random() % 14); n > 0; --n) {
            text += pieces[int(random() % uint(pieces.size()))];
            if (random() % 4 != 0)
                text += QLatin1Char(' ');
        }
        const auto parsed = parseFilter(text, book.catalogue());
        if (parsed.ok()) {
            ++read;
            ASSERT_EQ(parsed.filter.matches(*columns).size(), size_t(prints));
        } else {
            ++refused;
            const auto& fault = *parsed.fault;
            ASSERT_FALSE(fault.says.isEmpty()) << text.toStdString();
            ASSERT_TRUE(fault.at >= 0 && fault.length >= 0 && fault.at + fault.length <= text.size())
                << text.toStdString() << " at " << fault.at << ", " << fault.length;
        }
    }
    EXPECT_GT(read, 1000);
    EXPECT_GT(refused, 1000);
}

TEST_F(FilterFuzz, RandomCharactersDoNoHarm)
{
    for (int i = 0; i < 20'000; ++i) {
        QString text;
        for (int n = int(random() % 40); n > 0; --n)
            text += random() % 3 == 0 ? QChar(ushort(random() % 0xffff)) : QChar(ushort(32 + random() % 95));
        const auto parsed = parseFilter(text, book.catalogue());
        ASSERT_TRUE(parsed.ok() || !parsed.fault->says.isEmpty());
        ASSERT_EQ(parsed.filter.matches(*columns).size(), size_t(prints));
    }
}

TEST_F(FilterFuzz, OneRowAloneIsAsInTheWhole)
{
    for (int i = 0; i < 300; ++i) {
        const QString text = nested(3);
        const auto parsed = parseFilter(text, book.catalogue());
        ASSERT_TRUE(parsed.ok()) << text.toStdString();
        const auto all = parsed.filter.matches(*columns);
        for (int row = 0; row < prints; ++row)
            ASSERT_EQ(parsed.filter.matchesOne(*columns, row), all[size_t(row)] != 0)
                << text.toStdString() << ", row " << row;
    }
}

TEST_F(FilterFuzz, AComparisonOrItsOppositeShowsThePrintsThatKnow)
{
    for (const char* field :
        { "coat_volume_ml", "coat_tool", "print_outcome", "print_notes", "mix_code", "dry_covered", "coat_start" }) {
        const QString key = QLatin1String(field);
        QString test;
        do
            test = condition();
        while (!test.startsWith(key) || test.contains(QLatin1String(" is ")));
        EXPECT_EQ(shown(QStringLiteral("%1 or not %1").arg(test)), shown(key + QStringLiteral(" is known")))
            << test.toStdString();
        EXPECT_EQ(shown(QStringLiteral("%1 and not %1").arg(test)), std::vector<char>(prints)) << test.toStdString();
    }
}

TEST_F(FilterFuzz, LawsOfThreeValuedLogic)
{
    for (int i = 0; i < 400; ++i) {
        const QString a = nested(2), b = nested(2), c = nested(2);
        const auto law = [&](const char* left, const char* right) {
            const auto text = [&](const char* form) {
                return QString::fromLatin1(form)
                    .replace(QLatin1String("@a"), a)
                    .replace(QLatin1String("@b"), b)
                    .replace(QLatin1String("@c"), c);
            };
            ASSERT_EQ(shown(text(left)), shown(text(right))) << text(left).toStdString() << "\n"
                                                             << text(right).toStdString();
        };
        // De Morgan, on all rows: Kleene's logic keeps both laws, also among the unknown.
        law("not ((@a) and (@b))", "(not (@a)) or (not (@b))");
        law("not ((@a) or (@b))", "(not (@a)) and (not (@b))");
        law("not not (@a)", "(@a)");
        law("(@a) and (@b)", "(@b) (@a)");
        law("(@a) and ((@b) or (@c))", "(@a) and (@b) or (@a) and (@c)");
        law("(@a) or (@b) and (@c)", "((@a) or (@b)) and ((@a) or (@c))");
        ASSERT_EQ(shown(QStringLiteral("(%1) or (%2)").arg(a, b)), either(shown(a), shown(b)))
            << a.toStdString() << " | " << b.toStdString();
    }
}

TEST_F(FilterFuzz, OrderingsDivideTheKnownPrints)
{
    for (int quarter = -1; quarter < 11; ++quarter) {
        const QString limit = QString::number(quarter / 4.0);
        const auto less = shown(QStringLiteral("coat_volume_ml < %1").arg(limit));
        const auto equal = shown(QStringLiteral("coat_volume_ml = %1").arg(limit));
        const auto more = shown(QStringLiteral("coat_volume_ml > %1").arg(limit));
        const auto known = shown(QStringLiteral("coat_volume_ml is known"));
        for (size_t row = 0; row < known.size(); ++row)
            EXPECT_EQ(less[row] + equal[row] + more[row], known[row]) << limit.toStdString() << ", row " << row;
        EXPECT_EQ(shown(QStringLiteral("coat_volume_ml <= %1").arg(limit)), either(less, equal));
        EXPECT_EQ(shown(QStringLiteral("coat_volume_ml >= %1").arg(limit)), either(more, equal));
        EXPECT_EQ(shown(QStringLiteral("coat_volume_ml != %1").arg(limit)), either(less, more));
    }
}

TEST_F(FilterFuzz, NumbersAgreeWithAPlainLoop)
{
    const int volume = book.catalogue().printField(u"coat_volume_ml");
    for (int quarter = 0; quarter < 10; ++quarter) {
        const auto all = shown(QStringLiteral("coat_volume_ml < %1 and not coat_tool = brush").arg(quarter / 4.0));
        for (int row = 0; row < prints; ++row) {
            const auto& table = book.notebook().prints();
            const auto ml = columns->reader().get(row, volume).number();
            const auto tool = table.at(row, book.catalogue().column(Entity::Print, u"coat_tool")).text();
            EXPECT_EQ(all[size_t(row)] != 0, ml && *ml < quarter / 4.0 && tool && *tool != QLatin1String("brush"))
                << row;
        }
    }
}

TEST_F(FilterFuzz, TimesAgreeWithQt)
{
    const int start = book.catalogue().printField(u"coat_start");
    const QDate day(2026, 5, 2);
    const auto before = shown(QStringLiteral("coat_start < 2026-05-02"));
    const auto on = shown(QStringLiteral("coat_start = 2026-05-02"));
    const auto after = shown(QStringLiteral("coat_start > 2026-05-02"));
    const auto morning = shown(QStringLiteral("coat_start < 9:30"));
    int found = 0;
    for (int row = 0; row < prints; ++row) {
        const auto time = columns->reader().get(row, start).time();
        const auto r = size_t(row);
        const QDateTime there = time ? time->toDateTime() : QDateTime();
        EXPECT_EQ(before[r] != 0, time && there.date() < day) << row;
        EXPECT_EQ(on[r] != 0, time && there.date() == day) << row;
        EXPECT_EQ(after[r] != 0, time && there.date() > day) << row;
        EXPECT_EQ(morning[r] != 0, time && there.time() < QTime(9, 30)) << row;
        found += on[r];
    }
    EXPECT_GT(found, 0) << "the drawn times do not reach that day";
}

} // namespace WASHFAST_FILE
