// The report of a term as a page: well-formed, complete in itself, honest about what is not recorded, and without what
// is nobody's business. Invented data.
#include "core/exchange/report.h"
#include "core/exchange/report_html.h"
#include "tests/support/small_notebook.h"

#include <QRegularExpression>
#include <QXmlStreamReader>
#include <cmath>
#include <gmock/gmock.h>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::exchange;
using namespace washfast::test;
using testing::Contains;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::Not;

namespace {

class ReportPage : public testing::Test {
protected:
    ReportPage()
    {
        const auto term = book.add(Entity::Term, { { "term_name", "Spring <1> & “more”" } });
        const auto site = book.add(Entity::Site, { { "site_name", "Yard" }, { "site_latitude_deg", 47.123456 } });
        const auto mix = book.add(Entity::Mix, { { "mix_code", "M7" }, { "mix_ph", 5.5 } });
        for (const char* code : { "S1", "S2" })
            sessions.push_back(book.add(Entity::Session,
                { { "session_code", code }, { "session_term", term }, { "session_site", site },
                    { "session_start", "2026-05-04T10:15:00+02:00" } }));
        for (int n = 1; n <= 4; ++n)
            prints.push_back(book.print(QStringLiteral("P%1").arg(n).toUtf8().constData(),
                { { "print_session", sessions[n < 4 ? 0 : 1] }, { "print_mix", mix }, { "print_maker", "Maker-K4" },
                    { "print_width_mm", 100 }, { "print_height_mm", 150 },
                    { "coat_volume_ml", Known { 0.3, n == 2 ? Evidence::Estimated : Evidence::Measured } },
                    { "print_notes", "A private remark" } }));
        book.set({ Entity::Print, prints[0] }, "print_outcome", "kept");
        book.set({ Entity::Print, prints[1] }, "print_outcome", "ran_off");
        book.set({ Entity::Print, prints[2] }, "print_outcome", "pale; striped");
        tones(prints[0], 1.05, 0.95);
        tones(prints[1], 1.05, 0.15);
        book.add(Entity::Sign, { { "sign_kind", "mottle" } }, prints[1]);
        book.add(Entity::Photo, { { "photo_name", "IMG_1234.jpg" } }, prints[0]);
    }
    void tones(qint64 print, double before, double after)
    {
        book.reading(print, "before_rinse", "paper", 0.05);
        book.reading(print, "day_after", "paper", 0.05);
        book.reading(print, "before_rinse", "deepest", before);
        book.reading(print, "day_after", "deepest", after);
    }
    [[nodiscard]] Report report(const ReportOptions& options = {}) const
    {
        const auto selection = selectForExport(book.notebook(), std::nullopt);
        EXPECT_TRUE(selection);
        return makeReport(*selection, options);
    }
    [[nodiscard]] std::string html(const ReportOptions& options = {}) const
    {
        return reportHtml(report(options)).toStdString();
    }
    [[nodiscard]] ReportTable table(const char* caption, const ReportOptions& options = {}) const
    {
        for (const auto& part : report(options).parts)
            if (part.kind == ReportPart::Kind::Table && part.table.caption == QString::fromUtf8(caption))
                return part.table;
        throw std::runtime_error(std::string("no table ") + caption);
    }

    SmallNotebook book;
    std::vector<qint64> sessions, prints;
};

/// Elements of a page by name, and all its text; a page that is no XML fails.
struct Parsed {
    QStringList elements, texts;
    std::vector<std::pair<QString, QString>> attributes;
};
Parsed parse(const std::string& page)
{
    Parsed parsed;
    QXmlStreamReader reader(QByteArray::fromStdString(page));
    while (!reader.atEnd()) {
        const auto token = reader.readNext();
        if (token == QXmlStreamReader::StartElement) {
            parsed.elements << reader.name().toString();
            for (const auto& attribute : reader.attributes())
                parsed.attributes.emplace_back(attribute.name().toString(), attribute.value().toString());
        }
        if (token == QXmlStreamReader::Characters && !reader.isWhitespace())
            parsed.texts << reader.text().toString();
    }
    EXPECT_FALSE(reader.hasError()) << reader.errorString().toStdString() << " in line " << reader.lineNumber();
    return parsed;
}

// WCAG 2.1, "relative luminance" and "contrast ratio".
double luminance(const QString& colour)
{
    double sum = 0;
    const double weights[] = { 0.2126, 0.7152, 0.0722 };
    for (int i = 0; i < 3; ++i) {
        const double c = double(colour.mid(1 + 2 * i, 2).toInt(nullptr, 16)) / 255.0;
        sum += weights[i] * (c <= 0.03928 ? c / 12.92 : std::pow((c + 0.055) / 1.055, 2.4));
    }
    return sum;
}
double contrast(const char* one, const char* other)
{
    const double a = luminance(QLatin1String(one));
    const double b = luminance(QLatin1String(other));
    return (std::max(a, b) + 0.05) / (std::min(a, b) + 0.05);
}

} // namespace

TEST_F(ReportPage, IsWellFormedAndNeedsNothingElse)
{
    const auto page = html();
    const auto parsed = parse(page);
    EXPECT_THAT(page, testing::StartsWith("<!DOCTYPE html>"));
    for (const char* wanted : { "html", "title", "style", "h1", "table", "thead", "tbody", "svg" })
        EXPECT_TRUE(parsed.elements.contains(QLatin1String(wanted))) << wanted;
    for (const char* not_wanted : { "script", "link", "img", "iframe", "object", "use", "image" })
        EXPECT_FALSE(parsed.elements.contains(QLatin1String(not_wanted))) << not_wanted;
    for (const auto& [name, value] : parsed.attributes) {
        EXPECT_FALSE(
            name.startsWith(QLatin1String("on")) || name == QLatin1String("src") || name == QLatin1String("href"))
            << name.toStdString();
        EXPECT_FALSE(value.contains(QLatin1String("url("))) << value.toStdString();
    }
    EXPECT_THAT(page, Not(HasSubstr("@import")));
    EXPECT_THAT(page, Not(HasSubstr("url(")));
    EXPECT_THAT(page, HasSubstr("@page { size: A4;"));
}

TEST_F(ReportPage, TextsAreEscaped)
{
    const auto selection = selectForExport(book.notebook(), QString::fromUtf8("Spring <1> & “more”"));
    ASSERT_TRUE(selection);
    ReportOptions options;
    options.answers
        = { { QStringLiteral("<script>alert(1)</script>"), QStringLiteral("]]> & \"'"), { QStringLiteral("<i>") } } };
    const auto page = reportHtml(makeReport(*selection, options)).toStdString();
    const auto parsed = parse(page);
    EXPECT_EQ(parsed.texts.value(0), QString::fromUtf8("Blue prints of Spring <1> & “more”"));
    EXPECT_FALSE(parsed.elements.contains(QLatin1String("script")));
    EXPECT_TRUE(parsed.texts.contains(QStringLiteral("<i>")));
}

TEST_F(ReportPage, SaysHowPrintsCameOut)
{
    EXPECT_THAT(html(), HasSubstr("Of 4 prints 1 kept, 2 failed, and of 1 no outcome was recorded."));
    const auto sessions_table = table("Sessions");
    ASSERT_EQ(sessions_table.rows.size(), 2U);
    EXPECT_EQ(sessions_table.rows[0],
        QStringList({ QStringLiteral("S1"), QStringLiteral("–"), QStringLiteral("2026-05-04 10:15"),
            QStringLiteral("3"), QStringLiteral("1"), QStringLiteral("2"), QStringLiteral("0"), QStringLiteral("0.50"),
            QStringLiteral("0.50") })) // medians of 0.90 and 0.10, and of 0.90 and 0.10
        << sessions_table.rows[0].join(QLatin1Char('|')).toStdString();
    EXPECT_THAT(html(), HasSubstr("ran off: 1 (P2)"));
    EXPECT_THAT(html(), HasSubstr("striped: 1 (P3)"));
    EXPECT_THAT(html(), HasSubstr("Signs seen: mottle 1"));
}

TEST_F(ReportPage, ARejectedSignIsNotCounted)
{
    book.add(Entity::Sign, { { "sign_kind", "mottle" }, { "sign_found", "rejected" } }, prints[1]);
    EXPECT_THAT(html(), HasSubstr("Signs seen: mottle 1"));
    book.add(Entity::Sign, { { "sign_kind", "mottle" }, { "sign_found", "accepted" } }, prints[1]);
    EXPECT_THAT(html(), HasSubstr("Signs seen: mottle 2"));
}

TEST_F(ReportPage, TheCellsSayWhatWasMeasuredEstimatedOrNotRecorded)
{
    const auto one = table("Session S1");
    const auto headings = one.headings;
    EXPECT_EQ(headings.value(0), QStringLiteral("Print"));
    const auto coat = headings.indexOf(QStringLiteral("Coat per area [mL/m²]"));
    const auto kept = headings.indexOf(QStringLiteral("Kept"));
    ASSERT_GE(coat, 0);
    ASSERT_GE(kept, 0);
    EXPECT_EQ(headings.indexOf(QStringLiteral("Dose [J/cm²]")), -1) << "nothing in it: no column";
    EXPECT_EQ(one.rows[0][coat], QStringLiteral("20.0")); // 0.3 mL on 0.015 m²
    EXPECT_EQ(one.rows[1][coat], QStringLiteral("≈20.0"));
    EXPECT_EQ(one.rows[0][kept], QStringLiteral("0.90")); // 0.90 of 1.00
    EXPECT_EQ(one.rows[2][kept], QStringLiteral("–"));
    const auto worth = table("How the numbers came to be, in prints");
    EXPECT_THAT(worth.rows,
        Contains(QStringList({ QStringLiteral("Coat per area [mL/m²]"), QStringLiteral("3"), QStringLiteral("1"),
            QStringLiteral("0"), QStringLiteral("0") })));
    EXPECT_THAT(worth.rows,
        Contains(QStringList({ QStringLiteral("Dose [J/cm²]"), QStringLiteral("0"), QStringLiteral("0"),
            QStringLiteral("0"), QStringLiteral("4") })));
}

TEST_F(ReportPage, MakersOnlyWhenAskedAndNothingPrivateAtAll)
{
    const auto plain = html();
    EXPECT_THAT(plain, Not(HasSubstr("Maker-K4")));
    ReportOptions options;
    options.makers = true;
    EXPECT_THAT(html(options), HasSubstr("Maker-K4"));
    for (const auto& page : { plain, html(options) })
        for (const char* secret : { "IMG_1234", "47.12", "Yard", "private remark" })
            EXPECT_THAT(page, Not(HasSubstr(secret)));
}

TEST_F(ReportPage, ChartsHaveASignForEachPrint)
{
    int charts = 0;
    for (const auto& part : report().parts) {
        if (part.kind != ReportPart::Kind::Chart)
            continue;
        ++charts;
        EXPECT_EQ(part.chart.groups, QStringList({ QStringLiteral("S1"), QStringLiteral("S2") }));
        EXPECT_EQ(part.chart.points.size(), 2U);
        ASSERT_EQ(part.chart.medians.size(), 2U);
        EXPECT_NEAR(part.chart.medians[0].value_or(-1), 0.5, 1e-9);
        EXPECT_FALSE(part.chart.medians[1]);
        const auto parsed = parse(svgDocument(part.chart).toStdString());
        EXPECT_EQ(parsed.elements.count(QStringLiteral("circle")), 1 + 2) << "one kept, and two signs of the key";
    }
    EXPECT_EQ(charts, 1) << "no dose, no chart of it";
}

TEST(ReportScale, TakesRoundStepsThatHoldEverything)
{
    for (const auto& [least, most] : { std::pair(0.0, 1.0), std::pair(0.0, 0.03), std::pair(-0.12, 1.31),
             std::pair(0.0, 0.0), std::pair(2.0, 4.2), std::pair(0.0, 97.0), std::pair(0.3, 12345.0) }) {
        const auto scale = scaleFor(least, most);
        EXPECT_LE(scale.low, std::min(least, 0.0) + 1e-12);
        EXPECT_GE(scale.high, most - 1e-12);
        const double steps = (scale.high - scale.low) / scale.step;
        EXPECT_NEAR(steps, std::round(steps), 1e-6);
        EXPECT_LE(steps, 10);
        EXPECT_GE(steps, 1);
        const double digit = scale.step / std::pow(10.0, std::floor(std::log10(scale.step) + 1e-9));
        EXPECT_TRUE(std::abs(digit - 1) < 1e-9 || std::abs(digit - 2) < 1e-9 || std::abs(digit - 5) < 1e-9) << digit;
    }
}

// WCAG 2.1, success criteria 1.4.3 (text, 4.5 : 1) and 1.4.11 (graphics, 3 : 1).
TEST_F(ReportPage, EveryColourIsOneOfTheReportAndStandsOut)
{
    using namespace report_colour;
    for (const char* text : { ink, quiet, blue, rust })
        for (const char* ground : { "#FFFFFF", band })
            EXPECT_GE(contrast(text, ground), 4.5) << text << " on " << ground;
    const auto page = QString::fromStdString(html());
    auto found = QRegularExpression(QStringLiteral("#[0-9A-Fa-f]{6}\\b")).globalMatch(page);
    int colours = 0;
    while (found.hasNext()) {
        ++colours;
        EXPECT_THAT((std::vector<std::string> { ink, quiet, blue, rust, line, band, "#FFFFFF" }),
            Contains(found.next().captured().toStdString()));
    }
    EXPECT_GT(colours, 10);
}

TEST(ReportOfNothing, SaysSo)
{
    const SmallNotebook empty;
    const auto selection = selectForExport(empty.notebook(), std::nullopt);
    ASSERT_TRUE(selection);
    const auto page = reportHtml(makeReport(*selection, {})).toStdString();
    EXPECT_THAT(parse(page).texts, Contains(QStringLiteral("There are no prints.")));
    EXPECT_THAT(page, HasSubstr("Cautions"));
}

} // namespace WASHFAST_FILE
