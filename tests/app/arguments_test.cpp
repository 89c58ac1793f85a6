// The words behind a verb.
#include "app/cli/arguments.h"
#include "app/cli/cli.h"
#include "tests/support/scratch_notebook.h"

#include <gmock/gmock.h>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::cli;
using namespace washfast::test;

namespace {

const Shape& shape()
{
    static const Shape made { { "NOTEBOOK" },
        { { "--to", "FILE", "" }, { "--map", "A=b", "", true }, { "--json", nullptr, "" } } };
    return made;
}

QStringList words(const char* line)
{
    return text(line).split(QLatin1Char(' '), Qt::SkipEmptyParts);
}

} // namespace

TEST(Arguments, FilesOptionsAndSwitches)
{
    const auto read = must(readArguments(shape(), words("n --to=a=b --map x=y --json --map z=")));
    EXPECT_EQ(read.file(0), text("n"));
    EXPECT_EQ(read.value("--to"), text("a=b"));
    EXPECT_EQ(read.values("--map"), (QStringList { text("x=y"), text("z=") }));
    EXPECT_TRUE(read.has("--json"));
    EXPECT_FALSE(must(readArguments(shape(), words("n"))).has("--json"));
    EXPECT_EQ(must(readArguments(shape(), words("-- --json"))).file(0), text("--json"));
    EXPECT_EQ(must(readArguments(shape(), words("n --to -5"))).value("--to"), text("-5"))
        << "a negative number is a value";
    EXPECT_EQ(must(readArguments(shape(), words("n --to a,,b"))).list("--to"), (QStringList { text("a"), text("b") }));
}

TEST(Arguments, WhatIsWrongIsSaid)
{
    struct Case {
        const char* line;
        const char* says;
    };
    for (const auto& c : { Case { "", "NOTEBOOK is missing." }, Case { "a b", "“b” is one word too many." },
             Case { "a --nosuch", "There is no option --nosuch here." },
             Case { "a --to", "--to needs a value: --to FILE." },
             Case { "a --to --json", "--to needs a value: --to FILE." },
             Case { "a --json=1", "--json takes no value." }, Case { "a --to x --to y", "--to stands there twice." },
             Case { "a --json --json", "--json stands there twice." } })
        EXPECT_EQ(fails(readArguments(shape(), words(c.line))).says, text(c.says)) << c.line;
}

TEST(Arguments, WhatOpensTheWindow)
{
    const ScratchNotebook scratch;
    putBytes(scratch.inFolder("old"), "x");
    for (const QStringList& line :
        { QStringList {}, QStringList { text("new.washfast") }, QStringList { scratch.inFolder("old") },
            QStringList { text("new.washfast"), text("-platform"), text("offscreen") } })
        EXPECT_FALSE(isForCommandLine(line)) << line.join(QLatin1Char(' ')).toStdString();
    for (const char* line : { "demo", "--help", "nosuch", "old.washfast and", "list x", "old.washfast --json" })
        EXPECT_TRUE(isForCommandLine(words(line))) << line;
}

} // namespace WASHFAST_FILE
