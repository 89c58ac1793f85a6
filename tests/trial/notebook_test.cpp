// A notebook's tables, the index of what belongs to what, names.
#include "tests/support/small_notebook.h"

namespace WASHFAST_FILE {

using namespace washfast;
using test::SmallNotebook;

namespace {

QString wide(const char* text)
{
    return QString::fromUtf8(text);
}

std::vector<qint64> childIds(const Notebook& notebook, Entity child, qint64 owner)
{
    std::vector<qint64> ids;
    for (const int row : notebook.children(child, owner))
        ids.push_back(notebook.table(child).id(row));
    return ids;
}

using Ids = std::vector<qint64>;

} // namespace

TEST(Notebook, ChildrenAreFoundInTheOrderOfTheirIds)
{
    SmallNotebook book;
    const auto a = book.print("A"), b = book.print("B"), c = book.print("C");
    book.addAs(4, Entity::Bath, { { "bath_position", 2 } }, b);
    book.addAs(1, Entity::Bath, { { "bath_position", 1 } }, c);
    book.addAs(3, Entity::Bath, { { "bath_position", 1 } }, a);
    book.addAs(2, Entity::Bath, { { "bath_position", 1 } }, b);
    EXPECT_EQ(childIds(book.notebook(), Entity::Bath, a), Ids({ 3 }));
    EXPECT_EQ(childIds(book.notebook(), Entity::Bath, b), Ids({ 2, 4 }));
    EXPECT_EQ(childIds(book.notebook(), Entity::Bath, c), Ids({ 1 }));
    EXPECT_EQ(childIds(book.notebook(), Entity::Bath, 99), Ids());
    EXPECT_EQ(childIds(book.notebook(), Entity::Reading, a), Ids());
}

TEST(Notebook, TheIndexFollowsChanges)
{
    SmallNotebook book;
    const auto a = book.print("A"), b = book.print("B");
    book.add(Entity::Bath, { { "bath_position", 1 } }, a);
    EXPECT_EQ(childIds(book.notebook(), Entity::Bath, a), Ids({ 1 }));
    book.add(Entity::Bath, { { "bath_position", 2 } }, a);
    book.add(Entity::Bath, { { "bath_position", 1 } }, b);
    EXPECT_EQ(childIds(book.notebook(), Entity::Bath, a), Ids({ 1, 2 }));
    book.notebook().edit(Entity::Bath).erase(0);
    EXPECT_EQ(childIds(book.notebook(), Entity::Bath, a), Ids({ 2 }));
    EXPECT_EQ(childIds(book.notebook(), Entity::Bath, b), Ids({ 3 }));
}

TEST(Notebook, ManyChildrenOfManyOwnersAreEachFoundOnce)
{
    SmallNotebook book;
    std::vector<qint64> prints;
    for (int i = 0; i < 50; ++i)
        prints.push_back(book.print("P"));
    for (int i = 0; i < 500; ++i)
        book.add(Entity::Touch, { { "touch_state", "cool" } }, prints[size_t(i * 7919 % 50)]);
    size_t found = 0;
    for (const auto print : prints)
        for (const auto id : childIds(book.notebook(), Entity::Touch, print)) {
            ++found;
            EXPECT_EQ(book.notebook().table(Entity::Touch).owner(book.notebook().table(Entity::Touch).find(id)), print);
        }
    EXPECT_EQ(found, 500u);
}

TEST(Notebook, NamesLeadToRecordsAndBack)
{
    SmallNotebook book;
    const auto m7 = book.add(Entity::Mix, { { "mix_code", "M7" } });
    book.add(Entity::Mix, { { "mix_ph", 5.0 } });
    const auto& notebook = book.notebook();
    EXPECT_EQ(notebook.nameOf(Ref(Entity::Mix, m7)), wide("M7"));
    EXPECT_EQ(notebook.nameOf(Ref(Entity::Mix, 2)), QString());
    EXPECT_EQ(notebook.nameOf(Ref(Entity::Mix, 99)), QString());
    EXPECT_EQ(notebook.byName(Entity::Mix, wide("M7")), m7);
    EXPECT_EQ(notebook.byName(Entity::Mix, wide(" m7 ")), m7);
    EXPECT_FALSE(notebook.byName(Entity::Mix, wide("M77")));
    EXPECT_FALSE(notebook.byName(Entity::Paper, wide("M7")));
}

TEST(Notebook, ARecordWithoutANameIsNotFoundByAnEmptyOne)
{
    SmallNotebook book;
    book.add(Entity::Mix, { { "mix_ph", 5.0 } });
    EXPECT_FALSE(book.notebook().byName(Entity::Mix, wide("")));
    EXPECT_FALSE(book.notebook().byName(Entity::Mix, wide("  ")));
}

TEST(Notebook, GetsAValueByRowAndKey)
{
    SmallNotebook book;
    const auto paper = book.add(Entity::Paper, { { "paper_name", "cotton 300" }, { "paper_weight_g_m2", 300 } });
    EXPECT_EQ(book.notebook().get(Ref(Entity::Paper, paper), u"paper_weight_g_m2"), knownNumber(300));
    EXPECT_FALSE(book.notebook().get(Ref(Entity::Paper, paper), u"no_such_column").has());
    EXPECT_FALSE(book.notebook().get(Ref(Entity::Paper, 99), u"paper_name").has());
}

} // namespace WASHFAST_FILE
