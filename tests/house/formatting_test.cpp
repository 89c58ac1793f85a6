// Every source file is as clang-format leaves it, by the rules in .clang-format.
#include "tests/house/tool.h"

#include <gmock/gmock.h>

namespace WASHFAST_FILE {

namespace {

class Formatting : public washfast::house::ToolTest {
protected:
    Formatting()
        : ToolTest(QStringLiteral("clang-format"))
    {
    }

    [[nodiscard]] washfast::house::Outcome check(const QStringList& files) const
    {
        return run(QStringList { QStringLiteral("--dry-run"), QStringLiteral("-Werror"),
                       QStringLiteral("--ferror-limit=3"), QStringLiteral("--style=file:%1/.clang-format").arg(root()) }
            + files);
    }
};

} // namespace

TEST_F(Formatting, EverySourceFileIsFormatted)
{
    const QStringList files = sources({ QStringLiteral("*.cpp"), QStringLiteral("*.h") });
    ASSERT_GT(files.size(), 50) << "the sources were not found";
    const auto outcome = check(files);
    EXPECT_TRUE(outcome.clean) << outcome.complaints << "\nRun clang-format -i on these files.";
}

TEST_F(Formatting, ABadlyFormattedFileIsFound)
{
    EXPECT_TRUE(check({ planted("int twice(int x)\n{\n    return 2 * x;\n}\n") }).clean);
    const auto outcome = check({ planted("int twice( int x ){\nreturn 2*x; }\n") });
    EXPECT_FALSE(outcome.clean);
    EXPECT_THAT(outcome.complaints, testing::HasSubstr("planted.cpp:1"));
}

} // namespace WASHFAST_FILE
