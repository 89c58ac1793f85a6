// Values with their evidence, sets of choices, kinds of record, results.
#include "core/quantity/field.h"
#include "core/quantity/result.h"

#include <gtest/gtest.h>
#include <set>

namespace WASHFAST_FILE {

using namespace washfast;

namespace {
QString wide(const char* text)
{
    return QString::fromUtf8(text);
}
} // namespace

TEST(Known, NothingIsNotZero)
{
    const Known nothing;
    EXPECT_FALSE(nothing.has());
    EXPECT_FALSE(nothing.number());
    EXPECT_FALSE(nothing.yes());
    EXPECT_FALSE(nothing.time());
    EXPECT_FALSE(nothing.text());
    EXPECT_FALSE(nothing.link());
    EXPECT_NE(nothing, knownNumber(0.0));
    EXPECT_TRUE(knownNumber(0.0).has());
    EXPECT_TRUE((Known { false }).has());
}

TEST(Known, GivesOnlyWhatItHolds)
{
    EXPECT_EQ(knownNumber(2.5).number(), 2.5);
    EXPECT_FALSE(knownNumber(2.5).text());
    EXPECT_EQ((Known { true }).number(), 1.0) << "yes counts as 1";
    EXPECT_EQ((Known { false }).number(), 0.0);
    EXPECT_FALSE(knownNumber(1.0).yes()) << "but 1 is not yes";
    EXPECT_EQ((Known { wide("brush") }).text(), wide("brush"));
    EXPECT_FALSE((Known { wide("1") }).number());
    EXPECT_EQ((Known { Link { 7 } }).link(), 7);
    EXPECT_EQ((Known { Instant { 5, 0 } }).time(), (Instant { 5, 3600 }));
}

TEST(Evidence, TheWeakerOfTwoCounts)
{
    using enum Evidence;
    for (const auto a : { Measured, Estimated, Assumed })
        for (const auto b : { Measured, Estimated, Assumed }) {
            EXPECT_EQ(weaker(a, b), weaker(b, a));
            EXPECT_GE(weaker(a, b), a);
            EXPECT_TRUE(weaker(a, b) == a || weaker(a, b) == b);
        }
    EXPECT_EQ(weaker(Measured, Assumed), Assumed);
    EXPECT_EQ(weaker(Estimated, Measured), Estimated);
}

TEST(Evidence, KeysComeBack)
{
    for (const auto evidence : { Evidence::Measured, Evidence::Estimated, Evidence::Assumed })
        EXPECT_EQ(evidenceFromKey(evidenceKey(evidence)), evidence);
    EXPECT_FALSE(evidenceFromKey(u"guessed"));
    EXPECT_FALSE(evidenceFromKey(u""));
}

TEST(Sets, AreJoinedInTheOrderOfTheCatalogue)
{
    const auto field = choiceSetField(Entity::Print, "x", "X",
        { option("kept", "kept"), option("pale", "pale"), option("ran_off", "ran off") }, "X.");
    EXPECT_EQ(joinSet(field, { wide("ran_off"), wide("kept") }), wide("kept; ran_off"));
    EXPECT_EQ(joinSet(field, { wide("pale"), wide("pale") }), wide("pale"));
    EXPECT_EQ(joinSet(field, {}), QString());
    EXPECT_EQ(splitSet(wide(" ran_off ;kept;; ")), (QStringList { wide("ran_off"), wide("kept") }));
    EXPECT_EQ(joinSet(field, splitSet(wide("ran_off;kept"))), wide("kept; ran_off"));
    EXPECT_TRUE(splitSet(QString()).isEmpty());
}

TEST(Field, FindsItsChoices)
{
    const auto field
        = choiceField(Entity::Print, "x", "X", { option("rod", "glass rod"), option("brush", "brush") }, "X.");
    EXPECT_EQ(field.choiceIndex(u"brush"), 1);
    EXPECT_EQ(field.choiceIndex(u"glass rod"), -1) << "a label is no key";
    EXPECT_EQ(field.choiceLabel(wide("rod")), wide("glass rod"));
    EXPECT_EQ(field.choiceLabel(wide("sponge")), wide("sponge")) << "an unknown key is shown as it is";
    EXPECT_EQ(numberField(Entity::Print, "x", "Volume", "mL", "X.").labelWithUnit(), wide("Volume [mL]"));
    EXPECT_EQ(field.labelWithUnit(), wide("X"));
}

TEST(Entity, KeysComeBackAndAreDistinct)
{
    std::set<QString> keys, labels;
    for (const auto entity : allEntities()) {
        EXPECT_EQ(entityFromKey(entityKey(entity)), entity);
        keys.insert(entityKey(entity));
        labels.insert(entityLabel(entity));
    }
    EXPECT_EQ(keys.size(), size_t(entityCount));
    EXPECT_EQ(labels.size(), size_t(entityCount));
    EXPECT_FALSE(entityFromKey(u"Print"));
    EXPECT_FALSE(entityFromKey(u""));
}

TEST(Entity, WhatIsOwnedStandsBehindItsOwner)
{
    for (const auto entity : allEntities())
        if (const auto owner = ownerOf(entity)) {
            EXPECT_LT(owner->entity, entity) << "owners are written first";
            EXPECT_FALSE(ownerOf(owner->entity)) << "one level only";
        }
    EXPECT_EQ(ownerOf(Entity::Bath)->entity, Entity::Print);
    EXPECT_EQ(ownerOf(Entity::MixPart)->entity, Entity::Mix);
    EXPECT_FALSE(ownerOf(Entity::Print));
}

TEST(Ref, OrdersByTableThenRow)
{
    EXPECT_EQ(Ref(PrintId { 3 }), Ref(Entity::Print, 3));
    EXPECT_NE(Ref(Entity::Print, 3), Ref(Entity::Mix, 3));
    EXPECT_FALSE(PrintId().valid());
    EXPECT_TRUE(PrintId { 1 }.valid());
}

TEST(Result, HoldsAValueOrAnError)
{
    const Result<int> good = 3;
    EXPECT_TRUE(good.ok());
    EXPECT_EQ(*good, 3);
    const Result<int> bad = Error { Trouble::BadInput, wide("it is not a number."), wide("line 3") };
    ASSERT_FALSE(bad.ok());
    EXPECT_EQ(bad.error().sentence(), wide("line 3: it is not a number."));
    EXPECT_EQ((Error { Trouble::Failed, wide("no."), {} }).sentence(), wide("no."));
}

} // namespace WASHFAST_FILE
