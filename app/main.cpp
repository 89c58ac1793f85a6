// The program: with a verb it works without a window, otherwise it opens a notebook.
#include "app/cli/cli.h"
#include "app/translations.h"
#include "app/window/run_window.h"

#include <QGuiApplication>
#include <memory>

int main(int argc, char** argv)
{
    QStringList words;
    for (int i = 1; i < argc; ++i)
        words << QString::fromLocal8Bit(argv[i]);
    // Options of the window system (such as -platform) are for the window.
    const bool for_window = !words.isEmpty() && words.front().startsWith(QLatin1Char('-'))
        && !words.front().startsWith(QLatin1String("--")) && words.front() != QLatin1String("-h");
    if (for_window || !washfast::cli::isForCommandLine(words))
        return washfast::runWindow(argc, argv, words.isEmpty() || for_window ? QString() : words.front());
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
