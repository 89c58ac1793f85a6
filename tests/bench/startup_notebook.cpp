// The notebook that is measured with: invented prints, as many as are asked for.
#include "tests/bench/startup.h"
#include "tests/support/whole_print.h"

#include "app/cli/whole_catalogue.h"
#include "core/store/notebook_file.h"

#include <cstdio>

namespace washfast::bench {

namespace {

constexpr int lesson = 30;
constexpr double mixesEvery = 4; // lessons

/// Readings that differ from print to print, so that plots and filters have something to show.
void vary(std::vector<test::Row>& rows, int n)
{
    const double dose = double((n * 37) % 101) / 100.0;
    const double wet = double((n * 53) % 89) / 88.0;
    for (auto& row : rows) {
        const auto is = [&](const char* column, const char* key) {
            for (const auto& [name, value] : row.values)
                if (name == QLatin1String(column))
                    return value.text() == QLatin1String(key);
            return false;
        };
        const auto put = [&](const char* column, double number) {
            for (auto& [name, value] : row.values)
                if (name == QLatin1String(column))
                    value = Known { number };
        };
        if (row.entity == Entity::Reading)
            put("reading_density",
                is("reading_where", "paper")          ? 0.08
                    : is("reading_when", "day_after") ? 0.2 + dose * (1.2 - wet)
                                                      : 0.3 + dose);
        if (row.entity == Entity::Meter)
            put("meter_uva_w_m2", 10 + 30 * dose);
        if (row.entity == Entity::Exposure || row.entity == Entity::Meter)
            for (auto& [name, value] : row.values) // no two prints lie in the same light
                if (const auto time = value.time())
                    value = Known { Instant {
                        time->ms_utc + qint64((n / lesson) % 365) * 86'400'000 + qint64(n) * 7, 7200 } };
        if (row.entity == Entity::Weighing)
            put("weigh_mass_g",
                is("weigh_state", "bare")                ? 4.5
                    : is("weigh_state", "coated")        ? 5.1
                    : is("weigh_state", "before_expose") ? 4.65 + 0.3 * wet
                                                         : 4.62 + 0.3 * wet);
    }
    if (n % 2 == 0) // half of the doses come from the sky
        rows.erase(
            std::remove_if(rows.begin(), rows.end(), [](const auto& row) { return row.entity == Entity::Meter; }),
            rows.end());
    rows.front().values.push_back(test::chosen("print_outcome", n % 4 == 0 ? "ran_off" : "kept"));
}

} // namespace

bool makeNotebook(const QString& path, int prints)
{
    const auto catalogue = wholeCatalogue();
    auto file = store::NotebookFile::open(path, catalogue);
    if (!file) {
        std::fprintf(stderr, "%s\n", qPrintable(file.error().sentence()));
        return false;
    }
    test::Shared shared;
    qint64 site = 0;
    for (int first = 0, at = 1; first < prints; first += lesson, ++at) {
        const auto done = (*file)->perform(QStringLiteral("Lesson %1").arg(at), [&](store::Writer& writer) -> Outcome {
            const auto add = [&](Entity entity, const char* name, qint64& id) -> Outcome {
                const auto made = writer.add(entity, 0,
                    { { QString::fromLatin1(name),
                        Known { QStringLiteral("L%1").arg(at, 4, 10, QLatin1Char('0')) } } });
                if (!made)
                    return made.error();
                id = *made;
                return Done {};
            };
            if (auto made = add(Entity::Session, "session_code", shared.session); !made)
                return made;
            if (auto set = writer.set({ Entity::Session, shared.session }, QStringLiteral("session_start"),
                    Known { Instant { 1'000'000'000'000 + qint64(at) * 86'400'000, 7200 } });
                !set)
                return set;
            if (at % int(mixesEvery) == 1) {
                if (auto made = add(Entity::Mix, "mix_code", shared.mix); !made)
                    return made;
                if (auto set
                    = writer.set({ Entity::Mix, shared.mix }, QStringLiteral("mix_solids_pct"), Known { 15.0 });
                    !set)
                    return set;
            }
            if (at == 1) {
                if (auto made = add(Entity::Paper, "paper_name", shared.paper); !made)
                    return made;
                if (auto made = add(Entity::Cover, "cover_name", shared.cover); !made)
                    return made;
                const Ref cover { Entity::Cover, shared.cover };
                if (auto set = writer.set(cover, QStringLiteral("cover_kind"), Known { QStringLiteral("glass") }); !set)
                    return set;
                if (auto set = writer.set(cover, QStringLiteral("cover_thickness_mm"), Known { 4.0 }); !set)
                    return set;
                if (auto made = add(Entity::Site, "site_name", site); !made)
                    return made;
                for (const auto& [key, value] : { std::pair("site_latitude_deg", 52.0),
                         std::pair("site_longitude_deg", 10.0), std::pair("site_height_m", 80.0) })
                    if (auto set = writer.set({ Entity::Site, site }, QString::fromLatin1(key), Known { value }); !set)
                        return set;
            }
            if (auto set = writer.set(
                    { Entity::Session, shared.session }, QStringLiteral("session_site"), Known { Link { site } });
                !set)
                return set;
            for (int n = first; n < std::min(prints, first + lesson); ++n) {
                auto rows
                    = test::wholePrint(QStringLiteral("P%1").arg(n + 1, 6, 10, QLatin1Char('0')), n % 1000, shared);
                vary(rows, n);
                if (const auto print = test::addRows(writer, rows); !print)
                    return print.error();
            }
            return Done {};
        });
        if (!done) {
            std::fprintf(stderr, "%s\n", qPrintable(done.error().sentence()));
            return false;
        }
    }
    return true;
}

} // namespace washfast::bench
