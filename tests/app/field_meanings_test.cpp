// What the fields of the whole catalogue say about themselves for the search for causes.
#include "app/cli/whole_catalogue.h"
#include "core/causes/published_signs.h"
#include "core/causes/settings.h"

#include <QSet>
#include <gmock/gmock.h>

namespace WASHFAST_FILE {

using namespace washfast;

TEST(FieldMeanings, EverySignThatAFieldNamesIsPublishedAndEveryPublishedOneHasAField)
{
    const auto catalogue = wholeCatalogue();
    QSet<QString> named;
    for (const auto& field : catalogue.printFields()) {
        const auto meaning = causes::meaningOf(field);
        QStringList signs { meaning.sign_of_more, meaning.sign_of_less };
        for (const auto& [choice, sign] : meaning.sign_of_choice) {
            EXPECT_GE(field.choiceIndex(choice), 0) << field.key.toStdString() << ' ' << choice.toStdString();
            signs << sign;
        }
        for (const auto& sign : signs) {
            EXPECT_TRUE(sign.isEmpty() || causes::publishedSign(sign) != nullptr)
                << field.key.toStdString() << ' ' << sign.toStdString();
            named << sign;
        }
        EXPECT_NE(meaning.lever, InCauses::Lever::Unknown) << field.key.toStdString();
        EXPECT_TRUE(meaning.lever != InCauses::Lever::Weather || !meaning.within_sheet) << field.key.toStdString();
    }
    for (const char* key : { "light", "cover", "damp", "damp_under_film", "skin", "sensitiser", "rinse_long",
             "rinse_alkaline", "under_rinsed", "fog", "coat", "overexposed" })
        EXPECT_TRUE(named.contains(QString::fromLatin1(key))) << key;
}

// Light, drying and chemistry put fields of their own in the place of simpler ones.
TEST(FieldMeanings, AFieldThatTakesThePlaceOfAnotherKeepsItsMeaning)
{
    const auto catalogue = wholeCatalogue();
    const auto meaning
        = [&](const char* key) { return causes::meaningOf(*catalogue.findPrintField(QString::fromLatin1(key))); };
    EXPECT_EQ(meaning("moisture_at_rinse_pct").sign_of_more, QStringLiteral("damp"));
    EXPECT_EQ(meaning("dose_j_cm2").sign_of_less, QStringLiteral("light"));
    EXPECT_EQ(meaning("dose_j_cm2").lever, InCauses::Lever::Measured);
    EXPECT_EQ(meaning("sun_zenith_deg").lever, InCauses::Lever::Weather);
    EXPECT_EQ(meaning("iron_to_hexacyanoferrate").sign_of_less, QStringLiteral("sensitiser"));
    EXPECT_EQ(meaning("light_loss_cover_log10").sign_of_less, QStringLiteral("cover"));
}

} // namespace WASHFAST_FILE
