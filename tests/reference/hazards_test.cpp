// Statements word for word against a table of the Globally Harmonized System; tests/reference/data/chem/SOURCES.md says
// where it comes from.
#include "core/chemistry/hazards.h"
#include "core/chemistry/substance.h"

#include <QFile>
#include <QMap>
#include <gmock/gmock.h>

namespace WASHFAST_FILE {

using namespace washfast::chemistry;

namespace {

/// A full stop at the end and the three dots of a gap are set differently from edition to edition.
QString plain(QString text)
{
    text.replace(QStringLiteral("..."), QStringLiteral("…"));
    return text.endsWith(QLatin1Char('.')) ? text.chopped(1) : text;
}

QMap<QString, QString> published()
{
    QFile file(QStringLiteral(WASHFAST_REFERENCE "/chem/ghs_statements.csv"));
    EXPECT_TRUE(file.open(QIODevice::ReadOnly));
    QMap<QString, QString> table;
    const auto lines = QString::fromUtf8(file.readAll()).split(QLatin1Char('\n'), Qt::SkipEmptyParts);
    for (const auto& line : lines.mid(1)) {
        QString text = line.section(QLatin1Char(','), 1);
        if (text.startsWith(QLatin1Char('"')))
            text = text.mid(1, text.size() - 2);
        table.insert(line.section(QLatin1Char(','), 0, 0), plain(text));
    }
    return table;
}

std::vector<std::string> pictograms(const QStringList& codes)
{
    std::vector<std::string> found;
    for (const auto& pictogram : pictogramsFor(codes))
        found.push_back(pictogram.code.toStdString());
    return found;
}

QStringList codes(const char* text)
{
    return QString::fromLatin1(text).split(QLatin1Char(' '));
}

} // namespace

TEST(Statements, AreWordForWordThoseOfTheSystem)
{
    const auto table = published();
    ASSERT_GT(table.size(), 40);
    ASSERT_FALSE(statementCodes().isEmpty());
    for (const auto& code : statementCodes()) {
        ASSERT_TRUE(table.contains(code)) << code.toStdString();
        EXPECT_EQ(plain(statementText(code)), table.value(code)) << code.toStdString();
    }
}

TEST(Statements, EveryCodeOfASubstanceHasItsText)
{
    ASSERT_FALSE(allHazards().empty());
    for (const auto& hazards : allHazards()) {
        EXPECT_NE(substanceByKey(hazards.substance), nullptr) << hazards.substance.toStdString();
        ASSERT_FALSE(hazards.lists.empty());
        for (const auto& list : hazards.lists)
            EXPECT_FALSE(list.source.isEmpty()) << hazards.substance.toStdString();
        for (const auto& code : hazards.all() + precautionsFor(hazards.all()))
            EXPECT_FALSE(statementText(code).isEmpty()) << code.toStdString();
    }
}

// Signal words: GHS Annex 3. H314, H318, H330, H340, H350 and H360 come with Danger, a label without them but with any
// of the others of category 2 to 4 with Warning.
TEST(Statements, SignalWordsFitTheCodes)
{
    for (const auto& hazards : allHazards()) {
        for (const auto& list : hazards.lists) {
            bool danger = false, warning = false;
            for (const auto& code : list.codes) {
                danger = danger || codes("H314 H318 H330 H340 H350 H360").contains(code);
                warning = warning || code.startsWith(QLatin1Char('H'));
            }
            EXPECT_EQ(list.signal.toStdString(),
                danger        ? "Danger"
                    : warning ? "Warning"
                              : "")
                << hazards.substance.toStdString() << ", " << list.source.toStdString();
        }
    }
}

// GHS Annex 3 and the precedence of 1.4.10.5.3.1.
TEST(Pictograms, FollowTheSystem)
{
    using testing::ElementsAre;
    EXPECT_THAT(pictograms(codes("H319")), ElementsAre("GHS07"));
    EXPECT_THAT(pictograms(codes("H315 H318")), ElementsAre("GHS05")); // corrosion stands for skin irritation too
    EXPECT_THAT(pictograms(codes("H290 H302 H315 H318")), ElementsAre("GHS05", "GHS07")); // but not for swallowing
    EXPECT_THAT(pictograms(codes("H302 H330")), ElementsAre("GHS06")); // the skull stands for acute toxicity
    EXPECT_THAT(pictograms(codes("H317 H330 H350")), ElementsAre("GHS06", "GHS07", "GHS08"));
    EXPECT_THAT(pictograms(codes("H400")), ElementsAre("GHS09"));
    EXPECT_THAT(pictograms(codes("EUH032 H412")), ElementsAre());
}

TEST(Disagreement, IsKeptAndShown)
{
    const auto* citrate = hazardsOf(QStringLiteral("ammonium iron(III) citrate green"));
    ASSERT_NE(citrate, nullptr);
    EXPECT_TRUE(citrate->agreed().isEmpty());
    EXPECT_EQ(citrate->disputed(), codes("H302 H317"));
    const auto* chloride = hazardsOf(QStringLiteral("FeCl3.6H2O"));
    ASSERT_NE(chloride, nullptr);
    EXPECT_EQ(chloride->agreed(), codes("H290 H302 H315 H318"));
    EXPECT_EQ(chloride->disputed(), codes("H317"));
    EXPECT_EQ(chloride->signal(), QStringLiteral("Danger"));
}

// Global Solar UV Index, WHO 2002: bands 0-2, 3-5, 6-7, 8-10, 11+. One standard erythema dose, 100 J/m2, at 0.025 W/m2
// for each unit: 66.7 / index minutes; 22 at 3, 11 at 6, 8.3 at 8, 6 at 11.
TEST(SunCaution, HasTheBandAndTheMinutes)
{
    const std::pair<double, const char*> bands[] = { { 0, "low" }, { 2.4, "low" }, { 3, "moderate" },
        { 5.4, "moderate" }, { 6, "high" }, { 7, "high" }, { 8, "very high" }, { 10, "very high" }, { 11, "extreme" } };
    for (const auto& [index, band] : bands)
        EXPECT_EQ(uvBand(index).toStdString(), band) << index;
    EXPECT_THAT(sunCaution(8.0).why.toStdString(), testing::HasSubstr("8.3 minutes"));
    EXPECT_THAT(sunCaution(3.0).why.toStdString(), testing::HasSubstr("22 minutes"));
    EXPECT_THAT(sunCaution(std::nullopt).why.toStdString(), testing::Not(testing::HasSubstr("minutes")));
}

} // namespace WASHFAST_FILE
