// The program: with a verb it works without a window, otherwise it opens a notebook.
#include "app/cli/cli.h"
#include "app/translations.h"
#include "app/window/run_window.h"

#include <QGuiApplication>
#include <cerrno>
#include <csignal>
#include <cstdio>
#include <fcntl.h>
#include <memory>
#include <unistd.h>

namespace {

/// A standard stream that is closed is opened on nothing, the wrong way round, so that it fails when it is used and no
/// file that is opened later is taken for it.
void closedStreamsFail()
{
    for (const int stream : { STDIN_FILENO, STDOUT_FILENO, STDERR_FILENO })
        if (::fcntl(stream, F_GETFD) < 0 && errno == EBADF)
            (void)::open("/dev/null", stream == STDIN_FILENO ? O_WRONLY : O_RDONLY);
}

} // namespace

int main(int argc, char** argv)
{
    closedStreamsFail();
    std::signal(SIGXFSZ, SIG_IGN); // a file that may not grow is an error of writing, with a sentence
    const auto given = washfast::cli::wordsOf(argc, argv);
    if (!given) {
        const QByteArray says = "washfast: " + given.error().sentence().toUtf8() + '\n';
        std::fwrite(says.constData(), 1, size_t(says.size()), stderr);
        return 2;
    }
    const QStringList words = *given;
    // Options of the window system (such as -platform) are for the window.
    const bool for_window = !words.isEmpty() && words.front().size() > 1 && words.front().startsWith(QLatin1Char('-'))
        && !words.front().startsWith(QLatin1String("--")) && words.front() != QLatin1String("-h");
    if (for_window || !washfast::cli::isForCommandLine(words))
        return washfast::runWindow(argc, argv, words.isEmpty() || for_window ? QString() : words.front());
    // What the libraries remark on is nothing for the person: a verb says itself what is wrong, in one sentence.
    qInstallMessageHandler([](QtMsgType type, const QMessageLogContext&, const QString& text) {
        if (type == QtFatalMsg)
            std::fprintf(stderr, "washfast: %s\n", text.toUtf8().constData());
    });
    // A PDF is laid out with fonts, but no window is opened for it.
    const bool fonts = washfast::cli::needsFonts(words);
    if (fonts)
        qputenv("QT_QPA_PLATFORM", "offscreen");
    const std::unique_ptr<QCoreApplication> application(
        fonts ? new QGuiApplication(argc, argv) : new QCoreApplication(argc, argv));
    QCoreApplication::setApplicationName(QStringLiteral("washfast"));
    QCoreApplication::setApplicationVersion(QStringLiteral(WASHFAST_VERSION));
    washfast::installTranslations(*application);
    return washfast::cli::run(words);
}
