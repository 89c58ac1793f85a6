#include "ui/term/term_state.h"

#include "core/trial/day_after.h"

#include <algorithm>
#include <cmath>
#include <map>

namespace washfast::ui {

namespace {

std::optional<double> median(std::vector<double>& values)
{
    if (values.empty())
        return std::nullopt;
    std::sort(values.begin(), values.end());
    const size_t half = values.size() / 2;
    return values.size() % 2 == 1 ? values[half] : (values[half - 1] + values[half]) / 2.0;
}

} // namespace

std::vector<SessionSummary> summariesOf(const PrintColumns& columns, qint64 term)
{
    const auto& notebook = columns.notebook();
    const auto& catalogue = notebook.catalogue();
    std::vector<SessionSummary> summaries;
    std::map<qint64, size_t> place;
    const auto& sessions = notebook.table(Entity::Session);
    for (int row = 0; row < sessions.rows(); ++row) {
        const Ref ref { Entity::Session, sessions.id(row) };
        if (term != 0 && notebook.get(ref, u"session_term").link() != term)
            continue;
        SessionSummary summary;
        summary.session = ref.id;
        summary.code = notebook.nameOf(ref);
        summary.group = notebook.get(ref, u"session_group").text().value_or(QString());
        summary.start = notebook.get(ref, u"session_start").time();
        place[ref.id] = summaries.size();
        summaries.push_back(std::move(summary));
    }
    const auto numbers = [&](QStringView key) -> const std::vector<double>& {
        return columns.column(catalogue.printField(key)).numbers;
    };
    const auto& failed = numbers(u"failed");
    const auto& net = numbers(u"net_density");
    const auto& kept = numbers(u"kept");
    const auto& before = numbers(u"density_before_rinse_deepest");
    const auto& after = numbers(u"density_day_after_deepest");
    std::vector<std::vector<double>> nets(summaries.size()), kepts(summaries.size());
    const auto& prints = notebook.prints();
    const int link = catalogue.column(Entity::Print, u"print_session");
    for (int row = 0; row < prints.rows(); ++row) {
        const auto found = place.find(prints.link(row, link));
        if (found == place.end())
            continue;
        auto& summary = summaries[found->second];
        const auto r = size_t(row);
        ++summary.prints;
        if (!std::isnan(failed[r])) {
            ++summary.judged;
            summary.failed += failed[r] != 0.0 ? 1 : 0;
        }
        if (!std::isnan(before[r]) && std::isnan(after[r]) && toneAfter(columns.reader(), row).waits())
            ++summary.waiting;
        if (!std::isnan(net[r]))
            nets[found->second].push_back(net[r]);
        if (!std::isnan(kept[r]))
            kepts[found->second].push_back(kept[r]);
    }
    for (size_t i = 0; i < summaries.size(); ++i) {
        summaries[i].median_net = median(nets[i]);
        summaries[i].median_kept = median(kepts[i]);
    }
    std::stable_sort(summaries.begin(), summaries.end(), [](const SessionSummary& a, const SessionSummary& b) {
        return a.start && b.start ? *a.start < *b.start : a.start.has_value() && !b.start.has_value();
    });
    return summaries;
}

} // namespace washfast::ui
