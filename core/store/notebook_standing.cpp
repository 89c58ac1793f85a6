// A notebook whose file is taken from under it: noticing it, losing nothing, and opening it anew.
#include "core/store/notebook_file.h"
#include "core/store/words.h"

#include <QDateTime>
#include <QFile>
#include <QFileInfo>

namespace washfast::store {

namespace {

QString happened(FileHold::Found found, const QString& path)
{
    const auto name = QFileInfo(path).fileName();
    switch (found) {
    case FileHold::Found::FileGone:
        return Words::tr("%1 was moved, renamed or deleted while it was open, so nothing more is written.").arg(name);
    case FileHold::Found::Replaced:
        return Words::tr("Another file was put in the place of %1 while it was open, so nothing more is written.")
            .arg(name);
    case FileHold::Found::Overwritten:
        return Words::tr("Another program wrote over %1 while it was open, so nothing more is written.").arg(name);
    case FileHold::Found::Ours:
    case FileHold::Found::LocksGone:
    case FileHold::Found::LogGone:
        break;
    }
    return Words::tr("Another program removed the log of %1 while it was open, so nothing more is written.").arg(name);
}

QString wayOn(const FileLoss& loss)
{
    if (loss.rescue.isEmpty())
        return Words::tr("It could not be saved in another file either: make room on the disk, then enter something.");
    if (!loss.sound)
        return Words::tr(
            "Not all of it could be saved: its bytes are in %1. The next entry opens the file that is there "
            "now.")
            .arg(loss.rescue);
    if (loss.strange)
        return Words::tr("All that is shown is saved in %1: open that to go on.").arg(loss.rescue);
    if (loss.found == FileHold::Found::FileGone)
        return Words::tr("All that is shown is saved in %1: open that, or put the notebook back.").arg(loss.rescue);
    return Words::tr("All that is shown is saved in %1. The next entry opens the file that is there now.")
        .arg(loss.rescue);
}

Error lossOf(const FileLoss& loss, const QString& path)
{
    return { Trouble::Lost, happened(loss.found, path) + QLatin1Char(' ') + wayOn(loss), path };
}

/// Tells one state of a file from another without opening it; empty when there is none.
QString stateOf(const QString& path)
{
    const auto id = fileIdOf(path);
    const QFileInfo file(path);
    if (!id)
        return {};
    return QStringLiteral("%1 %2 %3 %4")
        .arg(id->device)
        .arg(id->inode)
        .arg(file.size())
        .arg(file.lastModified().toMSecsSinceEpoch());
}

} // namespace

NotebookFile::~NotebookFile()
{
    if (connection_ && wrote_)
        lookAfter(); // what is only in a log that nobody will find is saved before it goes
}

void NotebookFile::lookAfter()
{
    if (loss_) {
        (void)comeBack(false);
        return;
    }
    auto& hold = connection_->hold();
    if (connection_->inTransaction() || hold.isOurs())
        return;
    lose(hold.look());
    (void)comeBack(false);
}

void NotebookFile::lose(FileHold::Found found)
{
    auto& hold = connection_->hold();
    loss_ = FileLoss {};
    loss_->file = hold.file();
    loss_->log = hold.log();
    if (auto end = historyEnd(*connection_))
        loss_->end = *end;
    loss_->found = found;
    (void)saveShown();
}

/// Saves what is shown and reads it from there from now on; the connection to what is gone is closed.
bool NotebookFile::saveShown()
{
    auto& loss = *loss_;
    if (const auto saved = rescue(*connection_, path_)) {
        // Of what does not hang together nothing can be read any more, but for what is in memory.
        auto reading = saved->sound ? Connection::open(saved->path, Connection::Mode::ReadOnly)
                                    : Connection::open(QStringLiteral(":memory:"), Connection::Mode::ReadWrite);
        loss.rescue = saved->path;
        loss.sound = saved->sound;
        if (reading) {
            connection_ = std::move(reading).value();
            loss.let_go = true;
            at_rest_.reset(); // it is no longer the file at the path that is read
        }
    }
    loss.error = lossOf(loss, path_);
    return loss.let_go;
}

/// Opens the notebook at the path, if it is sound and has everything that was shown; when the person is `acting`, also
/// one that does not have everything, if it began as the same notebook.
bool NotebookFile::comeBack(bool acting)
{
    auto& loss = *loss_;
    if (!loss.let_go && (!acting || !saveShown()))
        return false;
    const auto state = stateOf(path_);
    if (state.isEmpty() || (!acting && state == loss.tried))
        return false;
    // Another connection of this process would hand on what it has of the log that is gone.
    if (loss.file && file_locks::isOpen(*loss.file) && fileIdOf(path_) == loss.file)
        return false;
    loss.tried = state;
    if (loss.log && (fileIdOf(path_) != loss.file || loss.found == FileHold::Found::Overwritten))
        loss.log->removeIfThere();
    auto options = options_;
    options.create = false;
    options.only_read = true; // nothing is changed in a file that may not be ours
    bool whole = false;
    {
        const auto there = open(path_, *catalogue_, options);
        const auto sound = there ? (*there)->integrity() : Result<QString>(there.error());
        if (!sound || *sound != QLatin1String("ok"))
            return false;
        whole = loss.end && hasAllOf((*there)->connection(), *loss.end);
        const bool same = !loss.end || beganAlike((*there)->connection(), *loss.end);
        if (!whole && !(acting && same))
            return false;
    }
    options.only_read = options_.only_read;
    auto anew = open(path_, *catalogue_, options);
    if (!anew)
        return false;
    const auto rescue = loss.rescue;
    const bool sound = loss.sound;
    const int openings = openings_;
    *this = std::move(**anew);
    openings_ = openings + 1;
    if (whole && sound)
        QFile::remove(rescue);
    return true;
}

Outcome NotebookFile::standFirm()
{
    lookAfter();
    if (!loss_)
        return Done {};
    const auto rescue = loss_->rescue;
    if (!comeBack(true)) {
        loss_->strange = loss_->let_go && !stateOf(path_).isEmpty();
        loss_->error = lossOf(*loss_, path_);
        return loss_->error;
    }
    return Error { Trouble::Lost,
        QFile::exists(rescue)
            ? Words::tr("This entry was not saved. The notebook was opened again as it is on the disk now; what was "
                        "shown before is in %1, which File, Bring in another notebook adds.")
                  .arg(rescue)
            : Words::tr("This entry was not saved. The notebook was opened again: look at it and enter it once more."),
        path_ };
}

Result<qint64> NotebookFile::step(const char* kind, const QString& label, const std::vector<StepWork>& steps)
{
    if (writable())
        if (auto firm = standFirm(); !firm)
            return firm.error();
    const auto done = performAs(kind, label, steps);
    if (!done && done.error().code == Trouble::Lost) {
        lookAfter();
        return loss_ ? loss_->error : done.error();
    }
    wrote_ = wrote_ || (done && *done > 0);
    return done;
}

} // namespace washfast::store
