#include "core/causes/batches.h"

#include "core/causes/phrases.h"
#include "core/causes/words.h"
#include "core/stats/permutation.h"

#include <cmath>
#include <map>

namespace washfast::causes {

namespace {

struct Batch {
    int prints = 0;
    double factor = 0.0; // value or level
    double outcome = 0.0; // sum
    int block = 0;
};

/// Empty when the factor varied within a batch, or every batch is one print.
std::vector<Batch> batchesWith(const Prepared& prepared, std::size_t index, const Batches& kind)
{
    const Column& column = prepared.columns[index];
    std::map<QString, Batch> found;
    bool several = false;
    for (const std::size_t row : prepared.complete({ index })) {
        const std::size_t at = prepared.rows[row];
        if (at >= kind.of.size() || kind.of[at].isNull())
            return {};
        const double value = column.isChoice() ? column.level[row] : column.value[row];
        Batch& batch = found[kind.of[at]];
        if (batch.prints > 0 && batch.factor != value)
            return {};
        several = several || batch.prints > 0;
        ++batch.prints;
        batch.factor = value;
        batch.outcome += prepared.outcome[row];
        batch.block = prepared.block.empty() ? 0 : prepared.block[row];
    }
    std::vector<Batch> out;
    for (const auto& [name, batch] : found)
        out.push_back(batch);
    return several ? out : std::vector<Batch> {};
}

double pOf(const std::vector<Batch>& batches, const Column& column, bool blocked, const Options& options)
{
    std::vector<double> outcome, value;
    std::vector<int> level, block;
    for (const Batch& batch : batches) {
        outcome.push_back(batch.outcome / batch.prints);
        value.push_back(batch.factor);
        level.push_back(static_cast<int>(std::lround(batch.factor)));
        if (blocked)
            block.push_back(batch.block);
    }
    const auto how = permutationOptions(options);
    if (column.isNumber())
        return stats::correlationTest(value, outcome, block, how).p;
    return (column.hasTwoLevels() ? stats::differenceOfMeansTest(outcome, level, block, how)
                                  : stats::groupMeansTest(outcome, level, block, how))
        .p;
}

} // namespace

void lookAtBatches(const Prepared& prepared, std::size_t column, const Options& options, FactorEvidence& evidence)
{
    if (!evidence.p_exact)
        return;
    for (const Batches& kind : prepared.table->batches) {
        if (kind.name == evidence.name)
            continue; // it is the batch
        const std::vector<Batch> batches = batchesWith(prepared, column, kind);
        const auto count = static_cast<int>(batches.size());
        if (count < 2 || (evidence.n_batches > 0 && evidence.n_batches <= count))
            continue;
        evidence.batch = kind.name;
        evidence.batch_label = kind.label.isEmpty() ? kind.name : kind.label;
        evidence.n_batches = count;
        evidence.p_batch = pOf(batches, prepared.columns[column], !prepared.block.empty(), options);
    }
}

QString unitSentence(const std::vector<FactorEvidence>& evidence)
{
    std::map<QString, QStringList> by_batch;
    for (const FactorEvidence& one : evidence)
        if (one.n_batches > 0)
            by_batch[QStringLiteral("%1|%2").arg(one.batch_label).arg(one.n_batches)].append(quoted(one));
    QStringList said;
    for (const auto& [key, names] : by_batch) {
        const auto parts = key.split(QLatin1Char('|'));
        said.append(Words::tr("%1 never changed within a %2, so there the %2 and not the sheet is the unit: %3 "
                              "of them.")
                        .arg(someOf(names, 4), parts[0], parts[1]));
    }
    return said.join(QLatin1Char(' '));
}

} // namespace washfast::causes
