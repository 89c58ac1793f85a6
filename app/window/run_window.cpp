#include "app/window/run_window.h"

#include "app/cli/whole_catalogue.h"
#include "app/translations.h"
#include "app/window/file_check.h"
#include "app/window/wiring.h"
#include "app/window/words.h"
#include "core/store/copies.h"
#include "ui/term/bring_in_dialog.h"
#include "ui/term/import_dialog.h"

#include <QApplication>
#include <QLibraryInfo>
#include <QSettings>
#include <QStandardPaths>
#include <QStatusBar>
#include <QStyleFactory>
#include <QTimer>
#include <QtConcurrent>

namespace washfast {

namespace {

constexpr int checkAfterMs = 3000; // the check, and the day's copy after it, wait until the window is up
constexpr int alreadyOpenMs = 8000;

/// One open notebook and its window.
struct Opened {
    std::unique_ptr<ui::Desk> desk;
    std::unique_ptr<MainWindow> window;
};

class Program {
public:
    Program(QApplication& application, const Catalogue& catalogue)
        : catalogue_(catalogue)
    {
        look_.setMode(
            ui::ThemeMode(QSettings().value(QStringLiteral("look"), int(ui::ThemeMode::FollowSystem)).toInt()));
        look_.applyTo(application);
        QObject::connect(&look_, &ui::ThemeSource::changed, &look_,
            [this] { QSettings().setValue(QStringLiteral("look"), int(look_.mode())); });
    }

    [[nodiscard]] QString askForNotebook()
    {
        const auto folder = QStandardPaths::writableLocation(QStandardPaths::DocumentsLocation);
        const auto answer = dialogs_.question(nullptr, WindowWords::tr("Washfast"), WindowWords::tr("Which notebook?"),
            { WindowWords::tr("Open one"), WindowWords::tr("Make a new one") });
        if (!answer)
            return {};
        const QStringList filters { WindowWords::tr("Notebooks (*.washfast)") };
        const auto path = *answer == 0
            ? dialogs_.openFile(nullptr, WindowWords::tr("Open notebook"), folder, filters)
            : dialogs_.saveFile(nullptr, WindowWords::tr("New notebook"),
                folder + QLatin1Char('/') + WindowWords::tr("notebook") + QStringLiteral(".washfast"), filters);
        return path.value_or(QString());
    }

    bool open(const QString& path)
    {
        if (opened_.desk && !opened_.desk->file().loss() && store::isSameFile(path, opened_.desk->file().path())) {
            opened_.window->statusBar()->showMessage(WindowWords::tr("This notebook is open already."), alreadyOpenMs);
            opened_.window->activateWindow();
            return true;
        }
        store::OpenOptions options;
        options.name_copy = false; // looked for beside the window
        auto file = store::NotebookFile::open(path, catalogue_, options);
        if (!file) {
            dialogs_.error(
                nullptr, WindowWords::tr("The notebook was not opened"), file.error().says, file.error().where);
            return false;
        }
        Opened next;
        next.desk = std::make_unique<ui::Desk>(std::move(*file), clock_);
        const ui::Services services { *next.desk, dialogs_, look_ };
        next.window = std::make_unique<MainWindow>(services, allViews());
        auto* window = next.window.get();
        QObject::connect(window, &MainWindow::openRequested, window, [this](const QString& other) {
            // Not from inside the window that goes away.
            QTimer::singleShot(0, qApp, [this, other] { open(other); });
        });
        QObject::connect(window, &MainWindow::importRequested, window, [services, window] {
            ui::ImportDialog dialog(services, window);
            (void)dialog.exec();
        });
        QObject::connect(window, &MainWindow::bringInRequested, window, [services, window] {
            ui::BringInDialog dialog(services, window);
            if (dialog.choose())
                (void)dialog.exec();
        });
        auto* check = new FileCheck(services, *window->statusBar(), window);
        QObject::connect(window, &MainWindow::checkRequested, check, &FileCheck::start);
        QObject::connect(check, &FileCheck::passed, window, [this] { startCopy(); });
        window->show();
        copy_.waitForFinished();
        opened_.window.reset(); // before the desk that its views read
        opened_ = std::move(next);
        QTimer::singleShot(opened_.desk->writable() ? checkAfterMs : 0, check, &FileCheck::start);
        return true;
    }

    [[nodiscard]] const Opened& opened() const { return opened_; }
    void finish() { copy_.waitForFinished(); }

private:
    void startCopy()
    {
        if (!opened_.desk->writable() || copy_.isRunning())
            return;
        const auto path = opened_.desk->file().path();
        const auto today = clock_.now().toLocalTime().date();
        auto* window = opened_.window.get();
        copy_ = QtConcurrent::run([path, today, window] {
            const auto made = store::makeDailyCopy(path, today);
            if (!made)
                QMetaObject::invokeMethod(window, [window, error = made.error()] {
                    window->statusBar()->showMessage(WindowWords::tr("Today's copy was not made: %1").arg(error.says));
                });
        });
    }

    const Catalogue& catalogue_;
    ui::SystemClock clock_;
    ui::QtDialogs dialogs_;
    ui::ThemeSource look_;
    QFuture<void> copy_;
    Opened opened_;
};

} // namespace

int runWindow(int argc, char** argv, const QString& notebook)
{
    QCoreApplication::setOrganizationName(QStringLiteral("washfast"));
    QCoreApplication::setApplicationName(QStringLiteral("washfast"));
    QCoreApplication::setApplicationVersion(QStringLiteral(WASHFAST_VERSION));
    QApplication application(argc, argv);
    QApplication::setStyle(QStyleFactory::create(QStringLiteral("Fusion")));
    installTranslations(application);
    const auto catalogue = wholeCatalogue();
    Program program(application, catalogue);
    const auto path = notebook.isEmpty() ? program.askForNotebook() : notebook;
    if (path.isEmpty() || !program.open(path))
        return 1;
    const int status = QApplication::exec();
    program.finish();
    return status;
}

} // namespace washfast
