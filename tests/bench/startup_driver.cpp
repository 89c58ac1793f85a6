// Starts the window again and again with an empty notebook and with a large one, in turn, and says the medians.
//
//     washfast_bench_startup [--prints=N] [--times=N] [--keep=FOLDER]
//
// The notebooks are made in a folder that goes away, or once in FOLDER. Uses the offscreen platform unless
// QT_QPA_PLATFORM says another.
#include "tests/bench/startup.h"

#include <QCoreApplication>
#include <QDir>
#include <QFile>
#include <QJsonDocument>
#include <QJsonObject>
#include <QProcess>
#include <QTemporaryDir>
#include <algorithm>
#include <cstdio>
#include <map>
#include <vector>

using namespace washfast::bench;

namespace {

/// What children said, by name, run after run.
using Numbers = std::map<QString, std::vector<double>>;

double median(std::vector<double> values)
{
    if (values.empty())
        return 0;
    std::sort(values.begin(), values.end());
    const auto half = values.size() / 2;
    return values.size() % 2 == 1 ? values[half] : (values[half - 1] + values[half]) / 2;
}

bool runOnce(const QString& notebook, bool work, Numbers& numbers)
{
    QProcess child;
    child.start(QCoreApplication::applicationFilePath(),
        { QStringLiteral("--child"), notebook, QString::number(monotonicMs(), 'f', 3),
            work ? QStringLiteral("work") : QStringLiteral("open") });
    constexpr int patienceMs = 300'000;
    if (!child.waitForFinished(patienceMs) || child.exitStatus() != QProcess::NormalExit || child.exitCode() != 0) {
        std::fprintf(stderr, "a start failed:\n%s", child.readAllStandardError().constData());
        return false;
    }
    const auto said = QJsonDocument::fromJson(child.readAllStandardOutput()).object();
    for (auto it = said.begin(); it != said.end(); ++it)
        numbers[it.key()].push_back(it.value().toDouble());
    return !said.isEmpty();
}

int drive(int prints, int times, const QString& folder)
{
    const auto empty = QDir(folder).filePath(QStringLiteral("empty.washfast"));
    const auto large = QDir(folder).filePath(QStringLiteral("%1.washfast").arg(prints));
    if ((!QFile::exists(empty) && !makeNotebook(empty, 0)) || (!QFile::exists(large) && !makeNotebook(large, prints)))
        return 1;
    Numbers with_none, with_many, working;
    std::vector<double> ratios;
    for (int i = 0; i <= times; ++i) {
        Numbers warm; // the first round fills the disk's cache and is not counted
        const bool large_first = i % 2 == 1;
        for (const bool is_large : { large_first, !large_first })
            if (!runOnce(is_large ? large : empty, false, i == 0 ? warm : is_large ? with_many : with_none))
                return 1;
        if (i > 0)
            ratios.push_back(with_many[QStringLiteral("painted")].back() / with_none[QStringLiteral("painted")].back());
    }
    constexpr int workingRuns = 3;
    for (int i = 0; i < workingRuns; ++i)
        if (!runOnce(large, true, working))
            return 1;
    std::printf("| from the start of the process, ms | empty | %d prints |\n| --- | --- | --- |\n", prints);
    for (const char* what : { "application", "file", "desk", "window", "painted", "complete" }) {
        const auto key = QString::fromLatin1(what);
        std::printf("| %s | %.0f | %.0f |\n", what, median(with_none[key]), median(with_many[key]));
    }
    for (const char* what : { "memory_painted_mb", "memory_complete_mb", "memory_peak_mb" }) {
        const auto key = QString::fromLatin1(what);
        std::printf("| %s | %.0f | %.0f |\n", what, median(with_none[key]), median(with_many[key]));
    }
    std::printf("\nfirst picture, %d prints over empty, median of %d pairs: %.2f (aim <= 2) %s\n", prints, times,
        median(ratios), median(ratios) <= 2 ? "met" : "missed");
    std::printf("\n| with %d prints, ms | median of %d |\n| --- | --- |\n", prints, workingRuns);
    for (const auto& [key, values] : working)
        if (!with_many.contains(key))
            std::printf("| %s | %.1f |\n", qPrintable(key), median(values));
    return 0;
}

} // namespace

int main(int argc, char** argv)
{
    if (qEnvironmentVariableIsEmpty("QT_QPA_PLATFORM"))
        qputenv("QT_QPA_PLATFORM", "offscreen");
    constexpr int childWords = 5;
    if (argc == childWords && qstrcmp(argv[1], "--child") == 0)
        return runChild(
            argc, argv, QString::fromLocal8Bit(argv[2]), QByteArray(argv[3]).toDouble(), qstrcmp(argv[4], "work") == 0);
    QCoreApplication application(argc, argv);
    int prints = 100'000;
    int times = 9;
    QString folder;
    for (const auto& word : QCoreApplication::arguments().mid(1)) {
        const auto value = word.mid(word.indexOf(QLatin1Char('=')) + 1);
        if (word.startsWith(QLatin1String("--prints=")))
            prints = value.toInt();
        else if (word.startsWith(QLatin1String("--times=")))
            times = value.toInt();
        else if (word.startsWith(QLatin1String("--keep=")))
            folder = value;
        else
            return std::fprintf(stderr, "usage: washfast_bench_startup [--prints=N] [--times=N] [--keep=FOLDER]\n"), 2;
    }
    QTemporaryDir scratch;
    if (folder.isEmpty())
        folder = scratch.path();
    return drive(prints, times, folder);
}
