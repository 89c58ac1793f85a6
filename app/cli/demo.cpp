// washfast demo NOTEBOOK
#include "app/cli/notebooks.h"
#include "app/cli/verb.h"
#include "app/cli/words.h"
#include "app/demo/demo_notebook.h"

namespace washfast::cli {

namespace {

constexpr quint32 ordinarySeed = 20260504;

int runDemo(const Arguments& arguments, const Output& output)
{
    bool number = true;
    const quint32 seed = arguments.has("--seed") ? arguments.value("--seed").toUInt(&number) : ordinarySeed;
    if (!number)
        return output.misuse(Words::tr("--seed needs a whole number."));
    auto notebook = openNotebook(arguments.file(0), Open::MayBeNew);
    if (!notebook)
        return output.fail(notebook.error());
    if (auto read = notebook->readRecords(); !read)
        return output.fail(read.error());
    for (const auto entity : allEntities())
        if (notebook->records->table(entity).rows() > 0)
            return output.fail({ Trouble::BadInput,
                Words::tr("This notebook has records already; the example is written only into a new or an empty one."),
                arguments.file(0) });
    if (auto written = demo::writeDemo(*notebook->file, seed); !written)
        return output.fail(written.error());
    if (auto read = notebook->readRecords(); !read)
        return output.fail(read.error());
    const int prints = notebook->records->prints().rows();
    if (arguments.has("--json"))
        output.json({ { QStringLiteral("notebook"), arguments.file(0) }, { QStringLiteral("prints"), prints },
            { QStringLiteral("sessions"), notebook->records->table(Entity::Session).rows() } });
    else
        output.line(Words::tr("Wrote an invented example with %1 prints to %2.").arg(prints).arg(arguments.file(0)));
    return done;
}

} // namespace

Verb demoVerb()
{
    return { "demo", QT_TRANSLATE_NOOP("Cli", "writes an invented example notebook"),
        { { "NOTEBOOK" },
            { { "--seed", "NUMBER", QT_TRANSLATE_NOOP("Cli", "another example; the same number gives the same one") },
                { "--json", nullptr, QT_TRANSLATE_NOOP("Cli", "one JSON object") } } },
        runDemo };
}

} // namespace washfast::cli
