#include "core/store/history.h"

#include <algorithm>

namespace washfast::store {

namespace {
/// Moves the step `id` from the end region of one list to the end of the other.
void move(std::vector<StepInfo>& from, std::vector<StepInfo>& to, qint64 id)
{
    const auto it = std::find_if(from.begin(), from.end(), [id](const StepInfo& s) { return s.id == id; });
    if (it == from.end())
        return;
    to.push_back(*it);
    from.erase(it);
}
} // namespace

void StepStack::follow(qint64 id, const QString& kind, qint64 target, const QString& label, const QString& window)
{
    last_ = std::max(last_, id);
    if (kind == QLatin1String("edit")) {
        done_.push_back({ id, label, window });
        undone_.clear();
    } else if (kind == QLatin1String("undo")) {
        move(done_, undone_, target);
    } else if (kind == QLatin1String("redo")) {
        move(undone_, done_, target);
    }
}

std::optional<StepInfo> StepStack::nextUndo() const
{
    return done_.empty() ? std::nullopt : std::optional(done_.back());
}

std::optional<StepInfo> StepStack::nextRedo() const
{
    return undone_.empty() ? std::nullopt : std::optional(undone_.back());
}

} // namespace washfast::store
