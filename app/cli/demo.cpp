// washfast demo NOTEBOOK
#include "app/cli/notebooks.h"
#include "app/cli/verb.h"
#include "app/cli/words.h"
#include "app/demo/demo_notebook.h"
#include "core/files/read_once.h"

#include <QFile>
#include <QFileInfo>
#include <limits>

namespace washfast::cli {

namespace {

constexpr quint32 ordinarySeed = 20260504;

/// Whether the example may take the place of a notebook that is there: of an empty one that was never written to and
/// that nobody else has open.
Outcome isNeverUsed(const QString& path)
{
    if (QFileInfo(path).size() == 0)
        return Done {};
    {
        auto there = openNotebook(path, Open::MayBeNew);
        if (!there)
            return there.error();
        if (auto read = there->readRecords(); !read)
            return read.error();
        bool used = there->records->last_change > 0;
        for (const auto entity : allEntities())
            used = used || there->records->table(entity).rows() > 0;
        if (used)
            return Error { Trouble::BadInput,
                Words::tr("This notebook has records already; the example is written only into a new or an empty one."),
                path };
    }
    // The last one that closes a notebook takes its log away.
    if (QFile::exists(path + QStringLiteral("-wal")))
        return Error { Trouble::Busy,
            Words::tr("This notebook is open in another window or program; close it there first."), path };
    return Done {};
}

struct Counts {
    int prints = 0, sessions = 0;
};

Result<Counts> writeExample(const QString& path, quint32 seed)
{
    files::removeLeftAside(path);
    if (const auto wrong = files::whyNotWrite(path, files::Existing::Replace))
        return *wrong;
    const bool replaces = files::standsThere(path);
    if (replaces)
        if (const auto unused = isNeverUsed(path); !unused)
            return unused.error();
    Counts counts;
    const auto made = makeNotebook(
        path, replaces ? files::Existing::Replace : files::Existing::Refuse, [&](OpenedNotebook& notebook) -> Outcome {
            if (auto written = demo::writeDemo(*notebook.file, seed); !written)
                return written;
            if (auto read = notebook.readRecords(); !read)
                return read;
            counts = { notebook.records->prints().rows(), notebook.records->table(Entity::Session).rows() };
            return Done {};
        });
    if (!made)
        return made.error();
    return counts;
}

int runDemo(const Arguments& arguments, const Output& output)
{
    const auto seed = arguments.number("--seed", 0, std::numeric_limits<quint32>::max());
    if (!seed || (*seed && **seed != double(quint32(**seed))))
        return output.misuse(Words::tr("--seed needs a whole number."));
    const QString path = arguments.file(0);
    if (files::isStandardStream(path))
        return output.fail(notOnDisk(path));
    const auto counts = writeExample(path, *seed ? quint32(**seed) : ordinarySeed);
    if (!counts)
        return output.fail(counts.error());
    output.wroteFiles();
    if (arguments.has("--json"))
        output.json({ { QStringLiteral("notebook"), path }, { QStringLiteral("prints"), counts->prints },
            { QStringLiteral("sessions"), counts->sessions } });
    else
        output.line(Words::tr("Wrote an invented example with %n prints to %1.", nullptr, counts->prints).arg(path));
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
