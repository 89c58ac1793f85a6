#include "core/store/merge.h"

#include "core/store/copies.h"
#include "core/store/merge_rows.h"
#include "core/store/soundness.h"
#include "core/store/words.h"

#include <QFile>
#include <QFileInfo>
#include <numeric>

namespace washfast::store {

namespace {

/// The other notebook, looked through and opened for reading. One of an older schema is read as it would be if it were
/// brought up to date.
Result<std::unique_ptr<NotebookFile>> openOther(const NotebookFile& file, const QString& path, const MergeOptions& how)
{
    OpenOptions options;
    options.create = false;
    options.only_read = true;
    options.look = LookFirst::Whole;
    options.stop = how.stop;
    auto other = NotebookFile::open(path, file.catalogue(), options);
    if (!other)
        return other.error();
    if ((*other)->schema() > file.schema())
        return Error { Trouble::TooNew,
            Words::tr(
                "This notebook was written by a newer version of the program (schema %1, here it is %2). Nothing was "
                "brought in.")
                .arg((*other)->schema())
                .arg(file.schema()),
            path };
    if ((*other)->damage())
        return (*other)->told(*(*other)->damage());
    return other;
}

/// Neither side may be damaged: a row that an index names and that is not there would be brought in as nothing.
Outcome mustBeSoundHere(NotebookFile& file, const MergeOptions& how)
{
    const auto look = wholeLook(file.connection(), how.stop);
    if (!look.damaged())
        return Done {};
    file.foundDamaged(damaged(look.fault, file.path()));
    return file.told(*file.damage());
}

/// Reads from one moment of the other file although somebody may be writing to it.
class Reading {
public:
    explicit Reading(Connection& connection)
        : connection_(connection)
        , begun_(connection.script("BEGIN"))
    {
    }
    ~Reading() { (void)connection_.script("ROLLBACK").ok(); }
    Reading(const Reading&) = delete;
    Reading& operator=(const Reading&) = delete;
    [[nodiscard]] const Outcome& begun() const { return begun_; }

private:
    Connection& connection_;
    Outcome begun_;
};

Outcome mergeInto(
    NotebookFile& file, Connection& other, Writer& writer, const MergeOptions& options, MergeReport& report)
{
    auto& ours = file.connection();
    auto sides = newsOfBoth(ours, other);
    if (!sides)
        return sides.error();
    const auto last = other.integer("SELECT max(id) FROM history");
    const auto mark = last ? markOf(other, *last) : Result<QString>(last.error());
    const auto step = ours.text("SELECT uuid FROM step WHERE id = (SELECT max(id) FROM step)");
    if (!mark || !step)
        return mark ? step.error() : mark.error();
    RowMerger rows(ours, other, writer, std::move(sides->first), std::move(sides->second));
    if (auto done = rows.run(options.keep_going); !done)
        return done;
    report = rows.report();
    const auto written = ours.integer("SELECT EXISTS (SELECT 1 FROM history WHERE step = (SELECT max(id) FROM step))");
    if (!written)
        return written.error();
    if (*written == 0)
        return Done {};
    auto note = rows.note();
    note.mark = *mark;
    if (auto done = file.setSetting(QLatin1String(mergeNoteKey) + *step, note.toText()); !done)
        return done;
    // Nothing of this step can be seen by others yet, so that the copy is of the notebook as it was.
    auto copy = copyBeforeMerge(file.path());
    if (!copy)
        return copy.error();
    report.copy = *copy;
    return Done {};
}

} // namespace

QString MergeDifference::sentence() const
{
    if (column == QLatin1String("removed"))
        return std::get<bool>(ours)
            ? Words::tr("%1: was removed here and changed in the other notebook since; it is back.").arg(record)
            : Words::tr("%1: was removed in the other notebook and changed here since; it stays.").arg(record);
    const auto text = [](const QString& value) { return value.isEmpty() ? Words::tr("not recorded") : value; };
    return Words::tr("%1, %2: here %3, in the other notebook %4. What stands here stays.")
        .arg(record, label, text(ours_text), text(theirs_text));
}

int MergeReport::addedInAll() const
{
    return std::accumulate(added.begin(), added.end(), 0);
}

int MergeReport::removedInAll() const
{
    return std::accumulate(removed.begin(), removed.end(), 0);
}

QStringList MergeReport::notes() const
{
    QStringList all;
    if (step == 0)
        all << Words::tr("There is nothing to bring in: nothing was written.");
    if (changed > 0)
        all << Words::tr("Fields changed: %1.").arg(changed);
    for (const auto& one : renamed)
        all << Words::tr("The name is taken: %1 %2 is %3 here.").arg(entityLabel(one.entity), one.from, one.to);
    for (const auto& one : differences)
        all << one.sentence();
    if (!copy.isEmpty())
        all << Words::tr("The notebook as it was before: %1").arg(copy);
    return all;
}

std::optional<Error> isItself(const QString& notebook, const QString& other)
{
    if (!isSameFile(notebook, other))
        return std::nullopt;
    return Error { Trouble::BadInput, Words::tr("This is the notebook itself; there is nothing to bring in from it."),
        other };
}

Result<MergeReport> merge(NotebookFile& file, const QString& other, const MergeOptions& options)
{
    if (const auto itself = isItself(file.path(), other))
        return *itself;
    if (auto sound = mustBeSoundHere(file, options); !sound)
        return sound.error();
    auto opened = openOther(file, other, options);
    if (!opened)
        return opened.error();
    if (options.stop.stop_requested())
        return Error { Trouble::Failed, Words::tr("Stopped; nothing was brought in."), {} };
    const Reading reading((*opened)->connection());
    if (!reading.begun())
        return reading.begun().error();
    MergeReport report;
    const auto step
        = file.perform(Words::tr("Bring in %1").arg(QFileInfo(other).fileName()), [&](Writer& writer) -> Outcome {
              if (auto done = mergeInto(file, (*opened)->connection(), writer, options, report); !done)
                  return done;
              return (*opened)->unchanged();
          });
    if (!step) {
        if (!report.copy.isEmpty())
            QFile::remove(report.copy);
        return step.error().where == other ? (*opened)->told(step.error()) : step.error();
    }
    report.step = *step;
    return report;
}

} // namespace washfast::store
