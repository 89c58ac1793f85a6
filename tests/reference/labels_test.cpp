// What stands on labels, beside the published system: United Nations, Globally Harmonized System of Classification and
// Labelling of Chemicals, Annexes 1 and 3. The texts are those of data/chem/ghs_statements.csv; see its SOURCES.md.
#include "core/chemistry/label.h"
#include "core/chemistry/risk_sheet.h"
#include "core/chemistry/substance.h"

#include <QFile>
#include <QHash>
#include <gmock/gmock.h>

namespace WASHFAST_FILE {

using namespace washfast::chemistry;

namespace {

/// Code and text of each line; a text may be quoted.
QHash<QString, QString> published()
{
    QHash<QString, QString> texts;
    QFile file(QStringLiteral(WASHFAST_REFERENCE "/chem/ghs_statements.csv"));
    if (!file.open(QIODevice::ReadOnly))
        return texts;
    const auto lines = QString::fromUtf8(file.readAll()).split(QLatin1Char('\n'), Qt::SkipEmptyParts);
    for (const auto& line : lines) {
        auto text = line.section(QLatin1Char(','), 1).trimmed();
        if (text.startsWith(QLatin1Char('"')))
            text = text.mid(1, text.lastIndexOf(QLatin1Char('"')) - 1);
        texts.insert(line.section(QLatin1Char(','), 0, 0), text);
    }
    return texts;
}

} // namespace

TEST(LabelStatements, EveryLabelOfEverySubstanceIsWordForWord)
{
    const auto texts = published();
    ASSERT_GT(texts.size(), 20);
    int compared = 0;
    for (const auto& substance : allHazards()) {
        const auto label = bottleLabel(substance.substance, { substance.substance });
        for (const auto& hazard : label.hazards) {
            ASSERT_TRUE(texts.contains(hazard.code)) << hazard.code.toStdString();
            EXPECT_EQ(hazard.text.toStdString(), texts.value(hazard.code).toStdString()) << hazard.code.toStdString();
            ++compared;
        }
        for (const auto& list : substance.lists)
            EXPECT_FALSE(list.source.isEmpty()) << substance.substance.toStdString();
    }
    EXPECT_GT(compared, 10);
}

// GHS, chapter 1.4.10.5.3.1: corrosion takes the place of the exclamation mark for skin and eyes, not for what is
// swallowed. Annex 1: H318 and H290 have the corrosion symbol, H302 and H317 the exclamation mark.
TEST(LabelStatements, PictogramsFollowThePrecedenceOfTheStandard)
{
    const auto codes = [](const QStringList& hazards) {
        QStringList all;
        for (const auto& pictogram : pictogramsFor(hazards))
            all << pictogram.code;
        return all;
    };
    const auto list = [](std::initializer_list<const char*> texts) {
        QStringList all;
        for (const char* text : texts)
            all << QLatin1String(text);
        return all;
    };
    EXPECT_EQ(codes(list({ "H290", "H315", "H318" })), list({ "GHS05" }));
    EXPECT_EQ(codes(list({ "H290", "H302", "H315", "H318" })), list({ "GHS05", "GHS07" }));
    EXPECT_EQ(codes(list({ "H319" })), list({ "GHS07" }));
    EXPECT_EQ(codes(list({ "EUH032" })), QStringList());
}

TEST(LabelStatements, DisagreementsBetweenSuppliersAreShownAsSuch)
{
    const auto sheet = riskSheet({ QStringLiteral("FeCl3.6H2O") });
    ASSERT_EQ(sheet.substances.size(), 1u);
    const auto statements = sheet.substances[0].statements.join(QLatin1Char('|')).toStdString();
    EXPECT_THAT(statements, testing::HasSubstr("H317* "));
    EXPECT_THAT(statements, testing::HasSubstr("H318 "));
}

// ISO 216: A4 is 210 mm x 297 mm.
TEST(LabelSheets, FitOnA4)
{
    for (const auto& sheet : labelSheets()) {
        EXPECT_LE(sheet.left_mm + (sheet.columns - 1) * sheet.across_mm + sheet.width_mm, 210.0 + 1e-9);
        EXPECT_LE(sheet.top_mm + (sheet.rows - 1) * sheet.down_mm + sheet.height_mm, 297.0 + 1e-9);
        EXPECT_GE(sheet.left_mm, 0);
        EXPECT_GE(sheet.top_mm, 0);
    }
}

} // namespace WASHFAST_FILE
