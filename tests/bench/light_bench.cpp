// The light room: a term's thousand exposures at one-minute steps, a year of one site, and spectra, beside a bare loop
// that evaluates as many exponentials as the spectra need. Run as README.md says.
#include "core/light/exposure_light.h"
#include "tests/bench/ratio_table.h"

#include <QTimeZone>
#include <cmath>
#include <random>

using namespace washfast;
using namespace washfast::light;

namespace {

constexpr int spectra = 1000;
// Each of the model's wavelengths takes transmittances of scattering, aerosol (three of them) and ozone, on the slant
// and again for the light thrown back.
constexpr int exponentialsPerBand = 10;

Instant moment(const char* iso)
{
    return *Instant::fromIso(QString::fromLatin1(iso));
}

/// A term: forty lessons of twenty-five prints, ten to twenty minutes each, sky noted, half of them behind glass.
std::vector<ExposureCase> term()
{
    std::mt19937 random(7);
    std::vector<ExposureCase> all;
    const CoverStack glass({ *readLayer(QStringLiteral("glass:4mm")) });
    for (int i = 0; i < 1000; ++i) {
        ExposureCase one;
        one.place = Place { 52, 10, 80 };
        one.start = moment("2026-03-02T09:00:00Z");
        one.start->ms_utc += (qint64(i / 25) * 3 * 24 * 60 + i % 25) * 60'000;
        one.end = one.start;
        one.end->ms_utc += qint64(10 + random() % 11) * 60'000;
        one.kind_noted = PlaceKind::OpenSky;
        one.skies = { { *one.start, { double(random() % 9), Disc(int(random() % 3)) } } };
        if (i % 2 == 0)
            one.covers = glass;
        all.push_back(std::move(one));
    }
    return all;
}

} // namespace

int main(int argc, char** argv)
{
    const auto exposures = term();
    benchmark::RegisterBenchmark("term_here",
        [&](benchmark::State& state) {
            bench::measureWork(state, [&] {
                double sum = 0;
                for (const auto& one : exposures)
                    sum += exposureDose(one).dose_j_cm2.value_or(0);
                benchmark::DoNotOptimize(sum);
            });
        })
        ->Unit(benchmark::kMillisecond)
        ->UseRealTime();
    benchmark::RegisterBenchmark("year_here",
        [&](benchmark::State& state) {
            bench::measureWork(state, [&] {
                const auto from = moment("2026-01-01T00:00:00Z");
                auto to = from;
                to.ms_utc += qint64(365) * 24 * 3600 * 1000;
                const ClearSky sky({ 52, 10, 80 }, {}, from, to);
                benchmark::DoNotOptimize(sky.series(from, 900, 365 * 96));
            });
        })
        ->Unit(benchmark::kMillisecond)
        ->UseRealTime();
    benchmark::RegisterBenchmark("spectra_here",
        [&](benchmark::State& state) {
            bench::measureWork(state, [&] {
                double sum = 0;
                for (int i = 0; i < spectra; ++i)
                    sum += uvaOf(clearSpectrum(10 + 0.07 * i, 1.0, {}, 1013.25)).diffuse;
                benchmark::DoNotOptimize(sum);
            });
        })
        ->Unit(benchmark::kMillisecond)
        ->UseRealTime();
    benchmark::RegisterBenchmark("spectra_exponentials",
        [&](benchmark::State& state) {
            bench::measureWork(state, [&] {
                double sum = 0;
                const int n = spectra * int(bandCount) * exponentialsPerBand;
                for (int i = 0; i < n; ++i)
                    sum += std::exp(-1e-4 * double(i % 9973));
                benchmark::DoNotOptimize(sum);
            });
        })
        ->Unit(benchmark::kMillisecond)
        ->UseRealTime();

    bench::Medians medians;
    const int status = bench::runAndCompare({ argv, argv + argc },
        { { "1,000 spectra, 300-500 nm, beside as many exponentials", "spectra_here", "spectra_exponentials", 0 },
            { "a year of one site, 365 x 96 moments", "year_here", "", 100 },
            { "a term's 1,000 exposures, one-minute steps", "term_here", "spectra_exponentials", 0 } },
        7, &medians);
    if (const double ms = medians.of("spectra_here").clock_ms; ms > 0)
        std::printf("\nspectra per second: %.0f\n", 1e3 * spectra / ms);
    return status;
}
