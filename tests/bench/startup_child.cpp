// One start of the window, timed from outside the process to the first picture.
#include "tests/bench/startup.h"

#include "app/cli/whole_catalogue.h"
#include "app/translations.h"
#include "app/window/wiring.h"
#include "ui/bench/bench_model.h"
#include "ui/bench/bench_view.h"
#include "ui/curves/curves_view.h"
#include "ui/curves/prints_chart.h"
#include "ui/prints/filter_line.h"
#include "ui/prints/print_table_model.h"
#include "ui/prints/prints_view.h"

#include <QApplication>
#include <QEventLoop>
#include <QFile>
#include <QJsonDocument>
#include <QJsonObject>
#include <QKeyEvent>
#include <QLineEdit>
#include <QMouseEvent>
#include <QStyleFactory>
#include <QTableView>
#include <QTimer>
#include <algorithm>
#include <cmath>
#include <cstdio>
#include <ctime>
#include <functional>

namespace washfast::bench {

namespace {

constexpr int mostSteps = 20;

/// Megabytes of this process: a line of /proc/self/status (proc(5)), kB there.
double memoryMb(const char* line)
{
    QFile status(QStringLiteral("/proc/self/status"));
    if (!status.open(QIODevice::ReadOnly))
        return 0;
    for (const auto& text : status.readAll().split('\n'))
        if (text.startsWith(line))
            return text.mid(qsizetype(qstrlen(line))).simplified().split(' ').value(0).toDouble() / 1024.0;
    return 0;
}

/// Tells when a widget has been painted and the picture been handed on.
class Painted : public QObject {
public:
    Painted(QWidget& widget, std::function<void()> then)
        : then_(std::move(then))
    {
        widget.installEventFilter(this);
    }
    bool eventFilter(QObject*, QEvent* event) override
    {
        if (event->type() == QEvent::Paint && !seen_) {
            seen_ = true;
            QTimer::singleShot(0, this, [this] { then_(); }); // behind the flush of this very paint
        }
        return false;
    }

private:
    std::function<void()> then_;
    bool seen_ = false;
};

/// Rests until it is so; a timer wakes it, for nothing else may be happening in this thread.
void waitFor(const std::function<bool()>& done)
{
    constexpr int lookMs = 5;
    QTimer look;
    look.start(lookMs);
    while (!done())
        QCoreApplication::processEvents(QEventLoop::WaitForMoreEvents);
}

double timed(const std::function<void()>& work)
{
    const double before = monotonicMs();
    work();
    return monotonicMs() - before;
}

/// Goes to a view and waits until it is painted.
double visit(MainWindow& window, const QString& title)
{
    return timed([&] {
        window.go(window.indexOf(title));
        QCoreApplication::processEvents();
        window.repaint();
    });
}

/// The slowest and the middle of some keystrokes, each until the table is painted again.
void typeFilter(MainWindow& window, QJsonObject& said)
{
    said[QStringLiteral("prints_view")] = visit(window, QStringLiteral("Prints"));
    auto* prints = window.findChild<ui::PrintsView*>();
    auto* line = prints->filterLine()->line();
    std::vector<double> updated, painted;
    const auto press = [&](int key, const QString& text) {
        const double before = monotonicMs();
        QKeyEvent down(QEvent::KeyPress, key, Qt::NoModifier, text);
        QCoreApplication::sendEvent(line, &down);
        updated.push_back(monotonicMs() - before);
        QCoreApplication::processEvents();
        prints->table()->viewport()->repaint();
        painted.push_back(monotonicMs() - before);
    };
    for (const char* text :
        { "kept < 0.6", "P0123", "dose_j_cm2 > 1 and kept > 0.5", "mix_code = L0005 or is_ran_off = yes" }) {
        const auto typed = QString::fromLatin1(text);
        // Once to have the columns there, as after the first filter of a day; the first time is told apart.
        const double first = timed([&] {
            line->setText(typed);
            QCoreApplication::processEvents();
        });
        said[QStringLiteral("filter_first")] = std::max(said[QStringLiteral("filter_first")].toDouble(), first);
        line->clear();
        QCoreApplication::processEvents();
        for (const auto& letter : typed)
            press(0, QString(letter));
        for (qsizetype i = 0; i < typed.size(); ++i)
            press(Qt::Key_Backspace, {});
    }
    std::sort(updated.begin(), updated.end());
    std::sort(painted.begin(), painted.end());
    said[QStringLiteral("keystroke_median")] = updated[updated.size() / 2];
    said[QStringLiteral("keystroke_slowest")] = updated.back();
    said[QStringLiteral("keystroke_painted_median")] = painted[painted.size() / 2];
    said[QStringLiteral("keystroke_painted_slowest")] = painted.back();
    said[QStringLiteral("sort")] = timed([&] {
        prints->table()->sortByColumn(8, Qt::AscendingOrder);
        QCoreApplication::processEvents();
    });
}

void moveOverPlot(MainWindow& window, QJsonObject& said)
{
    said[QStringLiteral("curves_view")] = visit(window, QStringLiteral("Curves"));
    auto* curves = window.findChild<ui::CurvesView*>();
    auto* chart = curves->chart();
    said[QStringLiteral("points")] = qint64(chart->prints().rows.size());
    std::vector<double> moves;
    const auto area = chart->viewport()->rect();
    for (int i = 0; i < 200; ++i) {
        const QPointF at(area.width() * (0.2 + 0.003 * i), area.height() * (0.3 + 0.002 * i));
        moves.push_back(timed([&] {
            QMouseEvent move(
                QEvent::MouseMove, at, chart->viewport()->mapToGlobal(at), Qt::NoButton, Qt::NoButton, Qt::NoModifier);
            QCoreApplication::sendEvent(chart->viewport(), &move);
            QCoreApplication::processEvents();
        }));
    }
    std::sort(moves.begin(), moves.end());
    said[QStringLiteral("hover_median")] = moves[moves.size() / 2];
    said[QStringLiteral("hover_slowest")] = moves.back();
    said[QStringLiteral("curves_again")]
        = visit(window, QStringLiteral("Bench")) + visit(window, QStringLiteral("Curves"));
}

/// One field of one print: a durable step, and all views that have been visited following it.
void logSteps(MainWindow& window, ui::Desk& desk, QJsonObject& said)
{
    said[QStringLiteral("bench_again")] = visit(window, QStringLiteral("Bench"));
    const auto prints = desk.printsOf(desk.session());
    std::vector<double> steps;
    for (const auto print : prints.mid(0, mostSteps))
        steps.push_back(timed([&] {
            desk.setPrintField({ print }, QStringLiteral("coat_passes"), Known { 1 + std::fmod(monotonicMs(), 7.0) });
            QCoreApplication::processEvents();
        }));
    if (steps.empty())
        return;
    std::sort(steps.begin(), steps.end());
    said[QStringLiteral("log_step_median")] = steps[steps.size() / 2];
    said[QStringLiteral("log_step_slowest")] = steps.back();
}

} // namespace

double monotonicMs()
{
    timespec time {};
    clock_gettime(CLOCK_MONOTONIC, &time);
    return double(time.tv_sec) * 1e3 + double(time.tv_nsec) / 1e6;
}

int runChild(int argc, char** argv, const QString& notebook, double started, bool work)
{
    QJsonObject said;
    const auto mark = [&](const char* what) { said[QString::fromLatin1(what)] = monotonicMs() - started; };
    QCoreApplication::setOrganizationName(QStringLiteral("washfast-bench"));
    QApplication application(argc, argv);
    QApplication::setStyle(QStyleFactory::create(QStringLiteral("Fusion")));
    installTranslations(application);
    mark("application");
    const auto catalogue = wholeCatalogue();
    auto file = store::NotebookFile::open(notebook, catalogue);
    if (!file) {
        std::fprintf(stderr, "%s\n", qPrintable(file.error().sentence()));
        return 1;
    }
    mark("file");
    ui::SystemClock clock;
    ui::QtDialogs dialogs;
    ui::ThemeSource look(false);
    look.applyTo(application);
    ui::Desk desk(std::move(*file), clock);
    mark("desk");
    MainWindow window({ desk, dialogs, look }, allViews());
    mark("window");
    bool painted = false;
    const Painted first(*window.findChild<ui::BenchView*>(), [&] {
        mark("painted");
        said[QStringLiteral("memory_painted_mb")] = memoryMb("VmRSS:");
        painted = true;
    });
    window.show();
    waitFor([&] { return painted; });
    waitFor([&] { return desk.complete(); });
    mark("complete");
    said[QStringLiteral("memory_complete_mb")] = memoryMb("VmRSS:");
    if (work) {
        typeFilter(window, said);
        moveOverPlot(window, said);
        logSteps(window, desk, said);
        said[QStringLiteral("memory_worked_mb")] = memoryMb("VmRSS:");
    }
    said[QStringLiteral("memory_peak_mb")] = memoryMb("VmHWM:");
    std::printf("%s\n", QJsonDocument(said).toJson(QJsonDocument::Compact).constData());
    return 0;
}

} // namespace washfast::bench
