// Opening a notebook for a verb. A verb that reads writes nothing: it opens for reading, an old schema is brought up to
// date in a copy, and the whole file is looked through beside the reading, so that what is missing from a damaged one
// is never passed over.
#pragma once

#include "core/files/write_aside.h"
#include "core/store/notebook_file.h"
#include "core/trial/filter.h"
#include "core/trial/print_columns.h"

#include <functional>
#include <future>
#include <stop_token>

namespace washfast::cli {

enum class Open {
    ToRead, // it must exist, and nothing is written
    ToReadLookedThrough, // the same after all of it has been looked through, for a verb that will write
    ToWrite, // it must exist
    MayBeNew // to write; it is made when it is not there
};

/// Looks through a whole file in another thread; stops when it is no longer wanted.
class LookBeside {
public:
    explicit LookBeside(const QString& path);
    ~LookBeside();
    LookBeside(const LookBeside&) = delete;
    LookBeside& operator=(const LookBeside&) = delete;
    [[nodiscard]] Result<store::Look> wait() { return looking_.get(); }

private:
    std::stop_source stop_;
    std::future<Result<store::Look>> looking_;
};

/// Keeps what the notebook leans on together.
struct OpenedNotebook {
    std::unique_ptr<Catalogue> catalogue;
    std::unique_ptr<store::NotebookFile> file;
    std::unique_ptr<Notebook> records; // only after readRecords()
    std::unique_ptr<LookBeside> look; // only after lookBeside()

    [[nodiscard]] Outcome readRecords();
    /// Begins to look through the file; damage() waits for the end.
    void lookBeside();
    /// What is wrong with the file, with a word about copies.
    [[nodiscard]] std::optional<Error> damage();
    /// Reads the records of a file that is looked through meanwhile; the error when it is damaged.
    [[nodiscard]] Outcome readSoundRecords();
};

/// What is said of a notebook that comes from a pipe, a device or standard input.
[[nodiscard]] Error notOnDisk(const QString& path);

[[nodiscard]] Result<OpenedNotebook> openNotebook(const QString& path, Open how = Open::ToRead);

/// Makes a new notebook aside and moves it into place when `work` is done, so that nothing of it stays when it is not,
/// nor when the process is killed. The errors are about `path`.
[[nodiscard]] Outcome makeNotebook(
    const QString& path, files::Existing existing, const std::function<Outcome(OpenedNotebook&)>& work);

/// The prints that a filter shows, one mark a row; an empty text shows all. The error says where the filter is wrong.
[[nodiscard]] Result<std::vector<char>> printsShown(const PrintColumns& columns, const QString& filter);

} // namespace washfast::cli
