// No known misspelling in the sources and the texts: codespell's list of common ones, in English.
#include "tests/house/tool.h"

#include <gmock/gmock.h>

namespace WASHFAST_FILE {

namespace {

class Spelling : public washfast::house::ToolTest {
protected:
    Spelling()
        : ToolTest(QStringLiteral("codespell"))
    {
    }
};

} // namespace

TEST_F(Spelling, NothingIsMisspelt)
{
    QStringList files = sources({ QStringLiteral("*.cpp"), QStringLiteral("*.h"), QStringLiteral("*.sh"),
        QStringLiteral("*.sql"), QStringLiteral("*.md"), QStringLiteral("CMakeLists.txt") });
    ASSERT_GT(files.size(), 50) << "the sources were not found";
    for (const char* text : { "/README.md", "/DEVELOPERS.md" })
        files << root() + QLatin1String(text);
    const auto outcome = run(files);
    EXPECT_TRUE(outcome.clean) << outcome.complaints;
}

TEST_F(Spelling, AMisspellingIsFound)
{
    EXPECT_TRUE(run({ planted("// We receive a print.\n") }).clean);
    // Put together here, or the test above would find it in this file.
    const auto outcome = run({ planted("// We rec\x69\x65ve a print.\n") });
    EXPECT_FALSE(outcome.clean);
    EXPECT_THAT(outcome.complaints, testing::HasSubstr("planted.cpp:1"));
}

} // namespace WASHFAST_FILE
