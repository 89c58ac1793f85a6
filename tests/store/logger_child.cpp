// Logs prints with all their children until it is killed, and says on standard output which steps perform() has
// returned from, a line each: "print CODE", "note CODE N", "undone CODE". It says "opened" when the notebook is open.
//
//     washfast_logger_child NOTEBOOK NAME
//
// Codes are NAME-1, NAME-2 ... so that no two runs take the same.
#include "tests/support/whole_print.h"

#include "core/store/notebook_file.h"

#include <QCoreApplication>
#include <cstdio>
#include <unistd.h>

using namespace washfast;
using namespace washfast::test;

namespace {

/// Straight to the pipe: what this program holds back would be lost with it.
void acknowledge(const QString& line)
{
    const auto bytes = line.toUtf8() + '\n';
    if (write(STDOUT_FILENO, bytes.constData(), size_t(bytes.size())) != bytes.size())
        _exit(3);
}

[[noreturn]] void giveUp(const Error& error)
{
    std::fprintf(stderr, "%s\n", qPrintable(error.sentence()));
    std::exit(1);
}

template <typename T> T must(Result<T> result)
{
    if (!result)
        giveUp(result.error());
    return std::move(result).value();
}

qint64 logPrint(store::NotebookFile& file, const QString& code, int n)
{
    qint64 print = 0;
    must(file.perform(QStringLiteral("Log %1").arg(code), [&](store::Writer& writer) -> Outcome {
        const auto added = addRows(writer, wholePrint(code, n));
        if (!added)
            return added.error();
        print = *added;
        if (n % 4 == 0) // now and then a photo, which is far larger than a page of the file
            if (const auto photo = writer.addPhoto(print, QByteArray(20'000 + n % 1000, char('a' + n % 26)), {});
                !photo)
                return photo.error();
        return Done {};
    }));
    return print;
}

} // namespace

int main(int argc, char** argv)
{
    const QCoreApplication application(argc, argv);
    const auto arguments = QCoreApplication::arguments();
    if (arguments.size() != 3)
        return 2;
    const auto catalogue = standardCatalogue();
    const auto file = must(store::NotebookFile::open(arguments[1], catalogue));
    acknowledge(QStringLiteral("opened"));
    for (int n = 1;; ++n) {
        const auto code = QStringLiteral("%1-%2").arg(arguments[2]).arg(n);
        const auto print = logPrint(*file, code, n);
        acknowledge(QStringLiteral("print ") + code);
        if (n % 3 == 0) {
            must(file->perform(QStringLiteral("Note"), [&](store::Writer& writer) {
                return writer.set(
                    Ref(Entity::Print, print), QStringLiteral("print_notes"), Known { QString::number(n) });
            }));
            acknowledge(QStringLiteral("note %1 %2").arg(code).arg(n));
        }
        if (n % 7 == 0) {
            must(file->undo());
            acknowledge(QStringLiteral("undone ") + code); // the print or the note, whichever came last
        }
    }
}
