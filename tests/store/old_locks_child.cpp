// A program on a system whose locks all belong to the process: says how the locks of its notebook fare when a file is
// looked into. store/file_locks_test starts it.
//
//     washfast_old_locks_child NOTEBOOK
#include "tests/support/kernel_locks.h"

#include "core/store/notebook_file.h"

#include <QCoreApplication>
#include <cerrno>
#include <cstdarg>
#include <cstdio>
#include <sqlite3.h>

using namespace washfast;

namespace {

int fcntlOfOldSystem(int descriptor, int command, ...)
{
    va_list rest;
    va_start(rest, command);
    auto* argument = va_arg(rest, void*);
    va_end(rest);
    if (command == F_OFD_SETLK || command == F_OFD_SETLKW || command == F_OFD_GETLK) {
        errno = EINVAL;
        return -1;
    }
    return ::fcntl(descriptor, command, argument);
}

bool added(store::NotebookFile& file)
{
    return file
        .perform(QStringLiteral("Add"),
            [](store::Writer& writer) -> Outcome {
                const auto print = writer.add(Entity::Print, 0, {});
                return print ? Outcome(Done {}) : Outcome(print.error());
            })
        .ok();
}

} // namespace

int main(int argc, char** argv)
{
    const QCoreApplication application(argc, argv);
    auto* vfs = sqlite3_vfs_find("unix");
    vfs->xSetSystemCall(vfs, "fcntl", reinterpret_cast<sqlite3_syscall_ptr>(fcntlOfOldSystem));
    const auto path = QCoreApplication::arguments().value(1);
    const auto catalogue = standardCatalogue();
    const auto file = store::NotebookFile::open(path, catalogue);
    if (!file || !added(**file))
        return 1;
    const int held = test::locksOn(path);
    std::puts(held > 0 ? "held" : "not held");
    test::lookIntoAll(path);
    std::puts(test::locksOn(path) == 0 ? "looked into: gone" : "looked into: held");
    (*file)->lookAfter();
    std::printf("looked after: %s, %s\n", test::locksOn(path) == held ? "held" : "gone",
        (*file)->loss() ? "a loss" : "no loss");
    return added(**file) ? 0 : 1;
}
