#include "core/store/history.h"

#include <algorithm>

namespace washfast::store {

namespace {
/// Moves a step from one list to the end of the other. It is nearly always the last.
void move(std::vector<qint64>& from, std::vector<qint64>& to, qint64 id)
{
    const auto it = std::find(from.rbegin(), from.rend(), id);
    if (it == from.rend())
        return;
    from.erase(std::next(it).base());
    to.push_back(id);
}

} // namespace

void StepStack::follow(qint64 id, std::string_view kind, qint64 target)
{
    last_ = std::max(last_, id);
    if (kind == "edit") {
        done_.push_back(id);
        undone_.clear();
        if (target > 0)
            runs_[id] = target;
    } else if (kind == "undo") {
        move(done_, undone_, target);
    } else if (kind == "redo") {
        move(undone_, done_, target);
    }
}

bool StepStack::isDone(qint64 step) const
{
    return std::find(done_.rbegin(), done_.rend(), step) != done_.rend();
}

qint64 StepStack::runOf(qint64 step) const
{
    const auto found = runs_.find(step);
    return found == runs_.end() ? step : found->second;
}

std::vector<qint64> StepStack::lastRun(const std::vector<qint64>& steps) const
{
    std::vector<qint64> run;
    for (auto step = steps.rbegin(); step != steps.rend(); ++step) {
        const bool belongs = run.empty() || (runOf(*step) == runOf(run.front()) && runOf(*step) != open_run_);
        if (!belongs)
            break;
        run.push_back(*step);
    }
    return run;
}

} // namespace washfast::store
