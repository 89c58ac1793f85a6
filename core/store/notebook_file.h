// A notebook on disk: opening it with all its cares, reading it into memory, writing to it step by step, undoing and
// redoing. There is no saving: when perform() returns, the step is on disk.
#pragma once

#include "core/store/history.h"
#include "core/store/look.h"
#include "core/store/migrations.h"
#include "core/store/rescue.h"
#include "core/store/to_read.h"
#include "core/store/writer.h"
#include "core/trial/notebook.h"

#include <functional>
#include <stop_token>

namespace washfast::store {

enum class Access {
    ReadWrite,
    ReadOnlyTooNew, // written by a newer version of the program
    ReadOnlyPlace, // the file or its folder cannot be written
    ReadOnlyDamaged // the file is not sound; what can be read of it is
};

/// How thoroughly a file is looked through before it is opened.
enum class LookFirst {
    None, // it has just been done
    Quick, // its tables, as far as quick_look_ms allows
    Whole // everything, before it is written to
};

struct OpenOptions {
    std::vector<Migration> migrations = shippedMigrations();
    bool create = true; // make a new notebook when there is no such file
    bool only_read = false; // the file and its folder are left as they are, though they may be written
    LookFirst look = LookFirst::Quick;
    int quick_look_ms = 150;
    std::stop_token stop {}; // breaks a look at the whole file off
    bool name_copy = true; // look for the newest sound copy when the file is damaged, however long it takes
    QString window; // marks the steps of this window, so that another one knows whose they are
};

/// The file of an open notebook was moved, removed, replaced, overwritten or cut off from its log. Nothing is written
/// from then on; what was shown is saved in another file and is read from there.
struct FileLoss {
    FileHold::Found found = FileHold::Found::Ours;
    Error error; // Lost: what has happened, where all is saved, and what the person can do
    QString rescue; // that file; empty while it could not be written
    std::optional<FileId> file; // the one that was open
    std::optional<FileHold::Log> log; // that it had
    std::optional<HistoryEnd> end; // of what was shown; nothing when it could not be read
    bool sound = false; // all that was shown is there; else the bytes of the file and of its log as they are
    bool let_go = false; // the connection to what is gone is closed
    bool strange = false; // what has its name by now is another notebook, or none
    QString tried; // the file that has its name by now, when it was last looked at
};

class NotebookFile {
public:
    /// Errors: NotANotebook (the file is left untouched), ReadOnly, Damaged, Busy, NotFound.
    /// A file of an older schema is copied beside itself, then brought up to date; one that is only read is brought up
    /// to date in a copy that is read instead of it. A damaged file that can be read at all is opened for reading.
    [[nodiscard]] static Result<std::unique_ptr<NotebookFile>> open(
        const QString& path, const Catalogue& catalogue, const OpenOptions& options = {});
    ~NotebookFile();

    /// Looks whether the file, its log and the locks are still ours; called before each step, and twice a second by who
    /// only reads. If not, saves what was shown, and opens the notebook anew if the file at its path is sound and has
    /// everything. Otherwise loss() tells, and the next step opens what is there now, if it is the same notebook.
    void lookAfter();
    [[nodiscard]] const std::optional<FileLoss>& loss() const { return loss_; }
    /// Counts up each time the file was opened anew: what was read before must be read again.
    [[nodiscard]] int openings() const { return openings_; }

    [[nodiscard]] QString path() const { return path_; }
    [[nodiscard]] Access access() const { return access_; }
    [[nodiscard]] bool writable() const { return access_ == Access::ReadWrite; }
    [[nodiscard]] int schema() const { return schema_; }
    /// What the file on disk has: older than schema() when it is only read.
    [[nodiscard]] int schemaOfFile() const { return schema_of_file_; }
    /// What is wrong with the file: Damaged, or nothing as far as is known.
    [[nodiscard]] const std::optional<Error>& damage() const { return damage_; }
    /// From now on nothing is written: somebody has found that the file is damaged.
    void foundDamaged(const Error& how);
    /// The error, with a word about copies when it says that the file is damaged. Looks for a sound one.
    [[nodiscard]] Error told(const Error& error) const;
    /// Error Busy when another program has written to a file that is read as one at rest.
    [[nodiscard]] Outcome unchanged() const;
    /// Copy that was made before the schema was brought up to date; empty when none was needed.
    [[nodiscard]] QString copyBeforeMigration() const { return copy_before_migration_; }
    [[nodiscard]] const Catalogue& catalogue() const { return *catalogue_; }

    /// All prints, or only those of one session with all they point at.
    [[nodiscard]] Result<Notebook> read(std::optional<SessionId> only = std::nullopt);
    /// The session with the latest start, if there is any.
    [[nodiscard]] Result<std::optional<SessionId>> latestSession();

    /// Runs `work` as one step: all of it is written, or nothing. A step that changes nothing leaves no trace.
    /// `run`: the first step of a run that this one goes on with; undo takes back a run as one.
    [[nodiscard]] Result<qint64> perform(
        const QString& label, const std::function<Outcome(Writer&)>& work, qint64 run = 0);
    /// For rows that a program makes (an example notebook): cannot be undone.
    [[nodiscard]] Result<qint64> performOrigin(const QString& label, const std::function<Outcome(Writer&)>& work);

    /// While a run goes on its steps are undone one by one; 0: none goes on.
    void setOpenRun(qint64 first) { stack_.setOpenRun(first); }
    /// False when the step was undone.
    [[nodiscard]] Result<bool> isDone(qint64 step);
    /// What undo and redo would do now; nothing when there is nothing. The label is that of the run's latest step.
    [[nodiscard]] Result<std::optional<StepInfo>> nextUndo();
    [[nodiscard]] Result<std::optional<StepInfo>> nextRedo();
    /// Error Conflict when a field has been changed since by somebody else.
    [[nodiscard]] Outcome undo();
    [[nodiscard]] Outcome redo();

    /// Entries after this one, oldest first.
    [[nodiscard]] Result<std::vector<HistoryEntry>> changesSince(qint64 entry);
    /// All entries about one row and what belongs to it, oldest first.
    [[nodiscard]] Result<std::vector<HistoryEntry>> historyOf(Ref row);
    /// True when another connection has written since the last call.
    [[nodiscard]] bool changedElsewhere();
    /// Brings a notebook in memory up to what the file holds; the changes that mattered to it.
    [[nodiscard]] Result<std::vector<Change>> refresh(Notebook& notebook);

    [[nodiscard]] Result<QByteArray> photo(PhotoId photo);
    [[nodiscard]] Result<QString> setting(const QString& key);
    [[nodiscard]] Outcome setSetting(const QString& key, const QString& value);
    /// How many prints the file holds, without reading them.
    [[nodiscard]] Result<qint64> printCount() { return connection_->integer("SELECT count(*) FROM print"); }
    /// "ok", or what SQLite found.
    [[nodiscard]] Result<QString> integrity();
    /// A whole copy in a new file.
    [[nodiscard]] Outcome copyTo(const QString& path);

    [[nodiscard]] Connection& connection() { return *connection_; }

private:
    NotebookFile(QString path, const Catalogue& catalogue)
        : path_(std::move(path))
        , catalogue_(&catalogue)
    {
    }
    NotebookFile& operator=(NotebookFile&&) = default;
    [[nodiscard]] Outcome standFirm();
    void lose(FileHold::Found found);
    [[nodiscard]] bool saveShown();
    [[nodiscard]] bool comeBack(bool acting);
    [[nodiscard]] Outcome connect(const OpenOptions& options, bool fresh);
    [[nodiscard]] Look lookFirst(Connection& connection, const OpenOptions& options) const;
    [[nodiscard]] Outcome prepare(const OpenOptions& options, bool fresh);
    [[nodiscard]] Outcome readUpgraded(const OpenOptions& options);
    [[nodiscard]] Outcome readSchema();
    [[nodiscard]] Outcome upgrade(const OpenOptions& options);
    [[nodiscard]] Outcome findColumns(bool all);
    struct StepWork {
        qint64 target = 0; // the step that is reversed, or with which an edit's run began
        std::function<Outcome(Writer&)> work;
    };
    [[nodiscard]] Result<qint64> step(const char* kind, const QString& label, const std::vector<StepWork>& steps);
    [[nodiscard]] Result<qint64> performAs(const char* kind, const QString& label, const std::vector<StepWork>& steps);
    [[nodiscard]] Result<qint64> writeSteps(const char* kind, const QString& label, const std::vector<StepWork>& steps);
    [[nodiscard]] Result<qint64> writeStep(const char* kind, const QString& label, const StepWork& what);
    [[nodiscard]] Outcome followSteps();
    [[nodiscard]] Result<std::optional<StepInfo>> stepInfo(const std::vector<qint64>& steps);
    [[nodiscard]] Result<std::vector<HistoryEntry>> entriesOf(qint64 step);
    [[nodiscard]] Result<std::vector<Change>> applyChanges(Notebook& notebook);
    [[nodiscard]] Outcome moveChildren(Notebook& notebook, qint64 print, std::vector<Change>& changes);
    [[nodiscard]] Outcome reverse(const std::vector<qint64>& steps, bool forward, const QString& label);

    QString path_;
    const Catalogue* catalogue_;
    std::unique_ptr<QTemporaryDir> scratch_; // of a large copy that is read instead of the file
    std::unique_ptr<Connection> connection_;
    std::optional<FileStamp> at_rest_; // it is read as a file that does not change
    bool name_copy_ = true;
    std::optional<Error> damage_;
    int schema_of_file_ = 0;
    Access access_ = Access::ReadWrite;
    int schema_ = 0;
    QString window_;
    QString copy_before_migration_;
    qint64 data_version_ = 0;
    StepStack stack_;
    TableColumns present_; // the columns of the catalogue that the file has
    OpenOptions options_; // it was opened with
    std::optional<FileLoss> loss_;
    int openings_ = 0;
    bool wrote_ = false;
};

} // namespace washfast::store
