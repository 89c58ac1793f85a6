// What the store costs beside the bare SQLite C interface: logging a print, reading a notebook of 100,000 prints; and a
// keystroke in the filter over them.
//
//     washfast_bench_store [--prints=N] [Google Benchmark's options]
#include "tests/bench/ratio_table.h"
#include "tests/bench/raw_store.h"

#include "core/store/notebook_file.h"
#include "core/trial/filter.h"

#include <QCoreApplication>
#include <QTemporaryDir>
#include <ctime>
#include <memory>

using namespace washfast;
using namespace washfast::bench;
using namespace washfast::test;

namespace {

template <typename T> T must(Result<T> result)
{
    if (!result) {
        std::fprintf(stderr, "%s\n", qPrintable(result.error().sentence()));
        std::exit(1);
    }
    return std::move(result).value();
}

/// Times one stretch of an iteration: by the clock, which is what the person waits, and by the processor's time of this
/// process, which another busy program does not lengthen.
class Stretch {
public:
    void stop(benchmark::State& state, int things)
    {
        state.SetIterationTime((now(CLOCK_MONOTONIC) - clock_) / things);
        busy_ += (now(CLOCK_PROCESS_CPUTIME_ID) - processor_) / things;
        state.counters[processorCounter] = benchmark::Counter(busy_ * 1e3, benchmark::Counter::kAvgIterations);
    }
    void start()
    {
        clock_ = now(CLOCK_MONOTONIC);
        processor_ = now(CLOCK_PROCESS_CPUTIME_ID);
    }

private:
    static double now(clockid_t which)
    {
        timespec time {};
        clock_gettime(which, &time);
        return double(time.tv_sec) + double(time.tv_nsec) / 1e9;
    }
    double clock_ = 0, processor_ = 0, busy_ = 0;
};

/// All that the benchmarks share: a catalogue, a folder, and the large notebook, made on first use.
class Ground {
public:
    explicit Ground(int prints)
        : catalogue(standardCatalogue())
        , prints_(prints)
    {
    }
    [[nodiscard]] QString newPath() { return folder_.filePath(QStringLiteral("%1.washfast").arg(++files_)); }
    [[nodiscard]] std::unique_ptr<store::NotebookFile> open(const QString& path) const
    {
        return must(store::NotebookFile::open(path, catalogue));
    }
    [[nodiscard]] const QString& large()
    {
        if (large_.isEmpty())
            makeLarge();
        return large_;
    }
    /// The columns of the large notebook, with those filled that the filters here have asked for before.
    [[nodiscard]] const PrintColumns& largeColumns()
    {
        if (!columns_) {
            notebook_ = std::make_unique<Notebook>(must(open(large())->read()));
            columns_ = std::make_unique<PrintColumns>(*notebook_);
        }
        return *columns_;
    }

    const Catalogue catalogue;

private:
    void makeLarge()
    {
        large_ = newPath();
        const auto file = open(large_);
        must(file->connection().script("PRAGMA synchronous = OFF"));
        Shared shared;
        constexpr int at_once = 1000;
        for (int from = 0; from < prints_; from += at_once)
            must(file->performOrigin(QStringLiteral("Fill"), [&](store::Writer& writer) -> Outcome {
                if (from == 0)
                    for (int i = 0; i < 5; ++i) {
                        const auto name = [i](const char* column, char letter) {
                            return std::vector<store::FieldValue> { { QString::fromLatin1(column),
                                Known { QStringLiteral("%1%2").arg(QLatin1Char(letter)).arg(i) } } };
                        };
                        shared.mix = must(writer.add(Entity::Mix, 0, name("mix_code", 'M')));
                        shared.paper = must(writer.add(Entity::Paper, 0, name("paper_name", 'B')));
                        shared.cover = must(writer.add(Entity::Cover, 0, name("cover_name", 'G')));
                    }
                for (int n = from; n < std::min(from + at_once, prints_); ++n) {
                    if (n % 30 == 0)
                        shared.session = must(writer.add(Entity::Session, 0,
                            { { QStringLiteral("session_code"), Known { QStringLiteral("S%1").arg(n) } } }));
                    shared.mix = shared.paper = shared.cover = 1 + n % 5;
                    must(addRows(writer, wholePrint(QStringLiteral("P%1").arg(n), n, shared)));
                }
                return Done {};
            }));
    }

    QTemporaryDir folder_;
    int prints_;
    int files_ = 0;
    QString large_;
    std::unique_ptr<Notebook> notebook_;
    std::unique_ptr<PrintColumns> columns_;
};

constexpr int batch = 20; // prints that are timed together

void logHere(benchmark::State& state, Ground& ground, bool durable)
{
    const auto file = ground.open(ground.newPath());
    if (!durable)
        must(file->connection().script("PRAGMA synchronous = OFF"));
    int n = 0;
    Stretch stretch;
    for (auto _ : state) {
        std::vector<std::vector<Row>> prints;
        for (int i = 0; i < batch; ++i, ++n)
            prints.push_back(wholePrint(QStringLiteral("P%1").arg(n), n));
        stretch.start();
        for (const auto& rows : prints)
            must(file->perform(QStringLiteral("Log"), [&](store::Writer& writer) -> Outcome {
                const auto print = addRows(writer, rows);
                return print.ok() ? Outcome(Done {}) : Outcome(print.error());
            }));
        stretch.stop(state, batch);
    }
}

void logRaw(benchmark::State& state, Ground& ground, bool durable)
{
    const auto path = ground.newPath();
    (void)ground.open(path); // the schema and its triggers
    RawNotebook raw(path, ground.catalogue);
    if (!durable)
        raw.run("PRAGMA synchronous = OFF");
    int n = 0;
    Stretch stretch;
    for (auto _ : state) {
        std::vector<std::vector<RawNotebook::Bound>> prints;
        for (int i = 0; i < batch; ++i, ++n)
            prints.push_back(RawNotebook::bound(ground.catalogue, wholePrint(QStringLiteral("P%1").arg(n), n)));
        stretch.start();
        for (const auto& rows : prints)
            raw.log(rows);
        stretch.stop(state, batch);
    }
}

void readHere(benchmark::State& state, Ground& ground)
{
    const auto file = ground.open(ground.large());
    Stretch stretch;
    for (auto _ : state) {
        stretch.start();
        const auto notebook = must(file->read());
        stretch.stop(state, 1); // without taking it down again
        benchmark::DoNotOptimize(notebook.prints().rows());
        if (!notebook.problems.isEmpty())
            std::exit(1);
    }
}

void readRaw(benchmark::State& state, Ground& ground)
{
    RawNotebook raw(ground.large(), ground.catalogue);
    Stretch stretch;
    for (auto _ : state) {
        stretch.start();
        const double sum = raw.readAll();
        stretch.stop(state, 1);
        benchmark::DoNotOptimize(sum);
    }
}

void filterKey(benchmark::State& state, Ground& ground, const char* text)
{
    const auto& columns = ground.largeColumns();
    const auto line = QString::fromUtf8(text);
    // The first keystroke fills the columns, the others find them there.
    const auto first = parseFilter(line, ground.catalogue);
    if (!first.ok())
        std::exit(1);
    (void)first.filter.matches(columns);
    Stretch stretch;
    for (auto _ : state) {
        stretch.start();
        const auto parsed = parseFilter(line, ground.catalogue);
        const auto shown = parsed.filter.matches(columns);
        stretch.stop(state, 1);
        benchmark::DoNotOptimize(shown.data());
    }
}

void add(const char* name, int iterations, const std::function<void(benchmark::State&)>& run)
{
    benchmark::RegisterBenchmark(name, run)->UseManualTime()->Unit(benchmark::kMillisecond)->Iterations(iterations);
}

} // namespace

int main(int argc, char** argv)
{
    const QCoreApplication application(argc, argv);
    int prints = 100'000;
    std::vector<char*> arguments;
    for (int i = 0; i < argc; ++i)
        if (std::sscanf(argv[i], "--prints=%d", &prints) != 1)
            arguments.push_back(argv[i]);
    Ground ground(prints);
    using benchmark::State;
    add("log_here", 5, [&](State& s) { logHere(s, ground, true); });
    add("log_raw", 5, [&](State& s) { logRaw(s, ground, true); });
    add("log_here_no_sync", 20, [&](State& s) { logHere(s, ground, false); });
    add("log_raw_no_sync", 20, [&](State& s) { logRaw(s, ground, false); });
    add("read_here", 1, [&](State& s) { readHere(s, ground); });
    add("read_raw", 1, [&](State& s) { readRaw(s, ground); });
    add("filter_words", 20, [&](State& s) { filterKey(s, ground, "m3 b3 k4"); });
    add("filter_both", 20, [&](State& s) { filterKey(s, ground, "m3 coat_volume_ml > 0.64 and bath1_minutes < 5.5"); });

    const auto many = std::to_string(prints) + " prints";
    return runAndCompare(std::move(arguments),
        { { "log one print with 13 children, on disk when it returns", "log_here", "log_raw", 1.3 },
            { "the same without waiting for the disk", "log_here_no_sync", "log_raw_no_sync", 0 },
            { "read " + many + " with children into memory", "read_here", "read_raw", 3.0 },
            { "a keystroke in the filter, three words, " + many, "filter_words", "", 50 },
            { "a keystroke in the filter, a word and two comparisons, " + many, "filter_both", "", 50 } });
}
