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

std::optional<qint64> lastOf(const std::vector<qint64>& steps)
{
    return steps.empty() ? std::nullopt : std::optional(steps.back());
}
} // namespace

void StepStack::follow(qint64 id, std::string_view kind, qint64 target)
{
    last_ = std::max(last_, id);
    if (kind == "edit") {
        done_.push_back(id);
        undone_.clear();
    } else if (kind == "undo") {
        move(done_, undone_, target);
    } else if (kind == "redo") {
        move(undone_, done_, target);
    }
}

std::optional<qint64> StepStack::nextUndo() const
{
    return lastOf(done_);
}

std::optional<qint64> StepStack::nextRedo() const
{
    return lastOf(undone_);
}

} // namespace washfast::store
