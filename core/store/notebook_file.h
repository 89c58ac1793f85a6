// A notebook on disk: opening it with all its cares, reading it into memory, writing to it step by step, undoing and
// redoing. There is no saving: when perform() returns, the step is on disk.
#pragma once

#include "core/store/history.h"
#include "core/store/migrations.h"
#include "core/store/rescue.h"
#include "core/store/writer.h"
#include "core/trial/notebook.h"

#include <functional>

namespace washfast::store {

enum class Access {
    ReadWrite,
    ReadOnlyTooNew, // written by a newer version of the program
    ReadOnlyPlace // the file or its folder cannot be written
};

struct OpenOptions {
    std::vector<Migration> migrations = shippedMigrations();
    bool create = true; // make a new notebook when there is no such file
    bool only_read = false; // the file and its folder are left as they are, though they may be written
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
    /// A file of an older schema is copied beside itself, then brought up to date.
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
    /// Copy that was made before the schema was brought up to date; empty when none was needed.
    [[nodiscard]] QString copyBeforeMigration() const { return copy_before_migration_; }
    [[nodiscard]] const Catalogue& catalogue() const { return *catalogue_; }

    /// All prints, or only those of one session with all they point at.
    [[nodiscard]] Result<Notebook> read(std::optional<SessionId> only = std::nullopt);
    /// The session with the latest start, if there is any.
    [[nodiscard]] Result<std::optional<SessionId>> latestSession();

    /// Runs `work` as one step: all of it is written, or nothing. A step that changes nothing leaves no trace.
    [[nodiscard]] Result<qint64> perform(const QString& label, const std::function<Outcome(Writer&)>& work);
    /// For rows that a program makes (an example notebook): cannot be undone.
    [[nodiscard]] Result<qint64> performOrigin(const QString& label, const std::function<Outcome(Writer&)>& work);

    /// What undo and redo would do now; nothing when there is nothing.
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
    [[nodiscard]] Result<qint64> step(
        const char* kind, qint64 target, const QString& label, const std::function<Outcome(Writer&)>& work);
    [[nodiscard]] Outcome prepare(const OpenOptions& options, bool fresh);
    [[nodiscard]] Outcome readSchema();
    [[nodiscard]] Outcome upgrade(const OpenOptions& options);
    [[nodiscard]] Outcome findColumns();
    [[nodiscard]] Result<qint64> performAs(
        const char* kind, qint64 target, const QString& label, const std::function<Outcome(Writer&)>& work);
    [[nodiscard]] Outcome followSteps();
    [[nodiscard]] Result<std::optional<StepInfo>> stepInfo(std::optional<qint64> step);
    [[nodiscard]] Result<std::vector<Change>> applyChanges(Notebook& notebook);
    [[nodiscard]] Outcome moveChildren(Notebook& notebook, qint64 print, std::vector<Change>& changes);
    [[nodiscard]] Outcome reverse(qint64 step, bool forward, const QString& label);

    QString path_;
    const Catalogue* catalogue_;
    std::unique_ptr<Connection> connection_;
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
