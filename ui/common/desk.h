// The notebook that lies open: the file, what has been read of it, and the news of every change. Views read from it and
// write through it; none of them touches the file itself.
//
// A small notebook is read whole when it is opened. Of a large one only the running session is read at first, so that
// the window is there at once; the rest follows in the background and complete() turns true.
#pragma once

#include "core/store/notebook_file.h"
#include "core/trial/print_columns.h"
#include "ui/common/clock.h"

#include <QFutureWatcher>
#include <QObject>
#include <QTimer>
#include <QVector>
#include <map>
#include <memory>

namespace washfast::ui {

class Desk : public QObject {
    Q_OBJECT

public:
    /// Takes the opened file; the clock must live longer.
    Desk(std::unique_ptr<store::NotebookFile> file, const Clock& clock, QObject* parent = nullptr);
    ~Desk() override;

    [[nodiscard]] const Catalogue& catalogue() const { return file_->catalogue(); }
    [[nodiscard]] const Notebook& notebook() const { return *notebook_; }
    [[nodiscard]] const PrintColumns& columns() const { return *columns_; }
    [[nodiscard]] const PrintReader& reader() const { return columns_->reader(); }
    [[nodiscard]] bool complete() const { return notebook_->complete; }
    [[nodiscard]] store::NotebookFile& file() { return *file_; }
    [[nodiscard]] bool writable() const { return file_->writable(); }
    /// Now, with the offset of the local clock.
    [[nodiscard]] Instant now() const;

    /// The session that is being worked on; not valid when there is none yet.
    [[nodiscard]] SessionId session() const { return session_; }
    void setSession(SessionId session);
    /// Ids of the prints of a session, in the order of their ids.
    [[nodiscard]] QVector<qint64> printsOf(SessionId session) const;
    /// Value of a print field by its key; unknown when there is no such print or field.
    [[nodiscard]] Known get(qint64 print, QStringView key) const;

    /// Runs one step; on an error nothing is written, trouble() is sent and the answer is false.
    bool perform(const QString& label, const std::function<Outcome(store::Writer&)>& work);
    /// A step of the run that began with the step `first` (0: it begins one). Each is on disk at once; undo takes back
    /// the run as one when it is over, and the label of its latest step is to tell of all of it. Gives the step, 0 when
    /// nothing changed; nothing on an error, which is sent as trouble().
    std::optional<qint64> performInRun(
        qint64 first, const QString& label, const std::function<Outcome(store::Writer&)>& work);
    /// The run that goes on, with what each of its steps is called alone: until it is over (0) they are undone one by
    /// one.
    void setOpenRun(qint64 first, std::map<qint64, QString> labels = {});
    /// False when the step was undone.
    [[nodiscard]] bool isDone(qint64 step);
    /// Sets a print field of several prints in one step. With one print and `expected`, only if it still holds that
    /// value.
    bool setPrintField(const QVector<qint64>& prints, const QString& key, const Known& value,
        const std::optional<Known>& expected = std::nullopt);
    /// False when there was nothing, or it could not be.
    bool undo();
    bool redo();
    /// What they would do, or an empty text.
    [[nodiscard]] QString undoLabel();
    [[nodiscard]] QString redoLabel();

    /// Looks for changes by other windows now, and whether the file is still there; also done twice a second.
    void lookForChanges();
    /// Somebody has looked through the file and found it damaged: nothing is written from now on.
    void foundDamaged(const Error& how);
    /// Takes in what has just been written to file() directly (an import).
    void catchUp() { takeNews(); }
    /// Waits until the whole notebook has been read (for tests and for what needs all of it).
    void waitUntilComplete();

Q_SIGNALS:
    /// Another notebook object is there: read everything again.
    void reloaded();
    void changed(const QVector<washfast::store::Change>& changes);
    void sessionChanged();
    void trouble(const washfast::Error& error);
    void accessChanged(); // the file has turned out to be damaged
    /// The notebook's file was taken away, or it is back: file().loss() says.
    void standingChanged();

private:
    /// A notebook in memory with its columns, which may have been filled in the background.
    struct Whole {
        std::unique_ptr<Notebook> notebook;
        std::unique_ptr<PrintColumns> columns;
    };
    [[nodiscard]] static Whole wholeOf(Notebook notebook);
    void take(Whole whole);
    void workIn(const QVector<store::Change>& changes, int prints_before);
    void takeNews();
    [[nodiscard]] QString labelOf(const Result<std::optional<store::StepInfo>>& next) const;
    void leaveRemovedSession(const QVector<store::Change>& changes); // works on at the latest one
    void readRest();
    void takeRest();
    void readFirst();
    void readAnew(); // after the file was opened anew
    void tellStanding();

    std::unique_ptr<store::NotebookFile> file_;
    int opening_ = 0; // of the file that the notebook was read from
    bool lost_ = false; // as it was told last
    const Clock& clock_;
    std::unique_ptr<Notebook> notebook_;
    std::unique_ptr<PrintColumns> columns_;
    SessionId session_;
    std::map<qint64, QString> open_run_; // what its steps are called alone
    QTimer poll_;
    QFutureWatcher<std::shared_ptr<Result<Whole>>> rest_;
    bool rest_wanted_ = false; // it has not been taken yet
    bool rest_begun_ = false;
};

/// Prints that the changes are about, each once; nothing when a shared record changed and any print may be concerned.
[[nodiscard]] std::optional<QVector<qint64>> printsTouched(const QVector<store::Change>& changes);

} // namespace washfast::ui
