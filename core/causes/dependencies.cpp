#include "core/causes/dependencies.h"

#include "core/causes/design.h"
#include "core/causes/phrases.h"
#include "core/causes/words.h"
#include "core/stats/collinearity.h"

#include <algorithm>
#include <cmath>

namespace washfast::causes {

namespace {

constexpr double nothing_left = 1e-7; // of a column of length 1
constexpr double takes_part = 1e-6;
constexpr double harmful_index = 30.0; // Belsley, Kuh and Welsch (1980)
constexpr double large_proportion = 0.5;
constexpr std::size_t spare_prints = 4;

class Search {
public:
    Search(const Prepared& prepared, bool plain_only)
        : prepared_(prepared)
    {
        choose(plain_only);
        if (!enoughRows() && !plain_only)
            choose(true);
    }

    Dependencies run()
    {
        Dependencies out;
        if (columns_.size() < 2 || !enoughRows())
            return out;
        for (const std::size_t column : columns_)
            take(column, out);
        nearly(out);
        return out;
    }

private:
    void choose(bool plain_only)
    {
        columns_.clear();
        for (std::size_t c = 0; c < prepared_.columns.size(); ++c) {
            const Column& column = prepared_.columns[c];
            const bool plain = !column.isChoice() || column.hasTwoLevels();
            if (column.n_known * 5 >= prepared_.n() * 4 && (plain || !plain_only))
                columns_.push_back(c);
        }
        rows_ = prepared_.complete(columns_);
        terms_ = 0;
        for (const std::size_t c : columns_) {
            const Column& column = prepared_.columns[c];
            terms_ += column.isChoice() ? column.level_names.size() - 1 : 1;
        }
    }
    [[nodiscard]] bool enoughRows() const { return rows_.size() >= terms_ + 1 + spare_prints; }

    /// Puts the factor's columns beside those that are there, and notes those that follow from them.
    void take(std::size_t index, Dependencies& out)
    {
        Design design;
        addColumns(design, prepared_.columns[index], rows_);
        for (Eigen::Index j = 0; j < design.columns.cols(); ++j) {
            const stats::Vector raw = design.columns.col(j);
            stats::Vector column = raw.array() - raw.mean();
            const double length = column.norm();
            if (length <= 1e-12 * (1.0 + raw.norm()))
                continue;
            column /= length;
            stats::Vector part;
            double left = 1.0;
            if (basis_.cols() > 0) {
                part = stats::leastSquares(basis_, column, 1e-14);
                left = (column - stats::product(basis_, part)).norm();
            }
            if (left > nothing_left) {
                append(basis_, column);
                append(raw_, raw);
                owner_.push_back(index);
                continue;
            }
            std::vector<std::size_t> members;
            for (Eigen::Index k = 0; k < part.size(); ++k)
                if (std::fabs(part(k)) > takes_part)
                    members.push_back(owner_[static_cast<std::size_t>(k)]);
            members.push_back(index);
            std::sort(members.begin(), members.end());
            members.erase(std::unique(members.begin(), members.end()), members.end());
            if (members.size() > 1)
                note(members, out);
        }
    }

    static void append(stats::Matrix& to, const stats::Vector& column)
    {
        to.conservativeResize(column.size(), to.cols() + 1);
        to.rightCols(1) = column;
    }

    Dependency named(const std::vector<std::size_t>& members) const
    {
        Dependency out;
        for (const std::size_t c : members) {
            out.names.append(prepared_.columns[c].factor->name);
            out.labels.append(quoted(*prepared_.columns[c].factor));
        }
        out.n = static_cast<int>(rows_.size());
        return out;
    }

    void note(const std::vector<std::size_t>& members, Dependencies& out) const
    {
        Dependency found = named(members);
        found.exact = true;
        found.says = members.size() == 2
            ? Words::tr("%1 follow from one another in all %n prints.", nullptr, found.n).arg(listed(found.labels))
            : Words::tr("Each of %1 follows exactly from the others together in all %n prints, so their effects cannot "
                        "be told apart.",
                nullptr, found.n)
                  .arg(listed(found.labels));
        const bool there = std::any_of(
            out.list.begin(), out.list.end(), [&](const Dependency& one) { return one.names == found.names; });
        if (!there)
            out.list.push_back(std::move(found));
    }

    void nearly(Dependencies& out) const
    {
        const stats::Matrix all = stats::withConstant(raw_);
        const stats::Conditioning found = stats::conditioning(all);
        for (Eigen::Index k = 0; k < found.condition_indices.size(); ++k) {
            const double index = found.condition_indices(k);
            if (!std::isfinite(index))
                continue;
            out.largest_condition_index = std::max(out.largest_condition_index.value_or(1.0), index);
            if (index < harmful_index)
                continue;
            std::vector<std::size_t> members;
            std::vector<double> proportions;
            for (Eigen::Index j = 1; j < all.cols(); ++j) {
                const std::size_t owner = owner_[static_cast<std::size_t>(j) - 1];
                if (found.variance_proportions(k, j) < large_proportion
                    || std::find(members.begin(), members.end(), owner) != members.end())
                    continue;
                members.push_back(owner);
                proportions.push_back(found.variance_proportions(k, j));
            }
            if (members.size() < 2)
                continue;
            Dependency near = named(members);
            near.condition_index = index;
            near.variance_proportions = proportions;
            near.says = Words::tr("%1 are nearly dependent (condition index %2): a model of them together says little.")
                            .arg(listed(near.labels), QString::number(index, 'f', 0));
            out.list.push_back(std::move(near));
        }
    }

    const Prepared& prepared_;
    std::vector<std::size_t> columns_, rows_, owner_;
    std::size_t terms_ = 0;
    stats::Matrix basis_, raw_;
};

} // namespace

Dependencies findDependencies(const Prepared& prepared, bool plain_only)
{
    return Search(prepared, plain_only).run();
}

} // namespace washfast::causes
