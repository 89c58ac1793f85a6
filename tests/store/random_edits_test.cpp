// Long random runs of edits, undoing, redoing and reopening through two windows, against a simple model: a list of
// states and a place in it. A notebook that is only ever refreshed must be the same as one that is read afresh.
#include "tests/support/outside.h"
#include "tests/support/scratch_notebook.h"

#include <gmock/gmock.h>
#include <map>
#include <random>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::test;
using store::NotebookFile;
using store::Writer;

namespace {

struct ModelRow {
    qint64 owner = 0;
    std::map<QString, Known> values; // known ones only
    friend bool operator==(const ModelRow&, const ModelRow&) = default;
};
using State = std::map<Ref, ModelRow>;

State stateOf(const Notebook& notebook)
{
    State state;
    for (const auto entity : allEntities()) {
        const auto& table = notebook.table(entity);
        for (int row = 0; row < table.rows(); ++row) {
            auto& held = state[Ref(entity, table.id(row))];
            held.owner = table.owner(row);
            for (const auto& field : notebook.catalogue().columns(entity))
                if (const auto known = table.at(row, field.ordinal); known.has())
                    held.values[field.key] = known;
        }
    }
    return state;
}

/// What differs between two states, a line each.
std::vector<std::string> differing(const State& model, const State& file)
{
    std::vector<std::string> lines;
    for (const auto& [ref, row] : model)
        if (const auto found = file.find(ref); found == file.end())
            lines.push_back("missing " + testing::PrintToString(ref));
        else if (!(found->second == row))
            lines.push_back("different " + testing::PrintToString(ref));
    for (const auto& [ref, row] : file)
        if (!model.contains(ref))
            lines.push_back("too many " + testing::PrintToString(ref));
    return lines;
}

class Play {
public:
    explicit Play(unsigned seed)
        : random_(seed)
    {
        for (auto& window : windows_)
            reopen(window);
    }

    void one()
    {
        auto& window = windows_[random_() % windows_.size()];
        switch (random_() % 16) {
        case 0:
            reopen(window);
            break;
        case 1:
        case 2:
        case 3:
            undo(*window.file);
            break;
        case 4:
        case 5:
            redo(*window.file);
            break;
        default:
            edit(*window.file);
        }
        if (random_() % 3 == 0)
            check(window);
    }
    void checkAll()
    {
        for (auto& window : windows_)
            check(window);
    }

private:
    struct Window {
        std::unique_ptr<NotebookFile> file;
        std::unique_ptr<Notebook> notebook; // refreshed only, after it was read once
    };

    State& now() { return states_[place_]; }
    size_t upTo(size_t count) { return random_() % count; }

    void reopen(Window& window)
    {
        window.notebook.reset();
        window.file.reset();
        window.file = scratch_.open();
        must(window.file->connection().script("PRAGMA synchronous = OFF")); // only to be quicker
        window.notebook = std::make_unique<Notebook>(must(window.file->read()));
    }

    void undo(NotebookFile& file)
    {
        ASSERT_EQ(must(file.nextUndo()).has_value(), place_ > 0);
        if (place_ == 0)
            return;
        must(file.undo());
        --place_;
    }
    void redo(NotebookFile& file)
    {
        ASSERT_EQ(must(file.nextRedo()).has_value(), place_ + 1 < states_.size());
        if (place_ + 1 == states_.size())
            return;
        must(file.redo());
        ++place_;
    }

    /// One step of one to three changes.
    void edit(NotebookFile& file)
    {
        State next = now();
        const auto step = must(file.perform(text("Edit"), [&](Writer& writer) -> Outcome {
            for (size_t count = 1 + upTo(3); count > 0; --count)
                change(writer, next);
            return Done {};
        }));
        ASSERT_EQ(step > 0, history_grew_) << "a step without a change";
        history_grew_ = false;
        if (step == 0)
            return;
        states_.resize(place_ + 1);
        states_.push_back(next);
        ++place_;
    }

    std::optional<Ref> any(const State& state, std::optional<Entity> of = std::nullopt)
    {
        std::vector<Ref> refs;
        for (const auto& [ref, row] : state)
            if (!of || ref.entity == *of)
                refs.push_back(ref);
        return refs.empty() ? std::nullopt : std::optional(refs[upTo(refs.size())]);
    }

    void change(Writer& writer, State& state)
    {
        const auto row = any(state);
        const auto what = upTo(10);
        if (!row || what < 3)
            add(writer, state);
        else if (what == 3)
            remove(writer, state, *row);
        else
            set(writer, state, *row);
    }

    void add(Writer& writer, State& state)
    {
        constexpr std::array kinds { Entity::Print, Entity::Print, Entity::Paper, Entity::Mix, Entity::MixPart,
            Entity::Bath, Entity::Weighing, Entity::Reading, Entity::Exposure, Entity::Session };
        const auto entity = kinds[upTo(kinds.size())];
        qint64 owner = 0;
        if (const auto owned = ownerOf(entity)) {
            const auto found = any(state, owned->entity);
            if (!found)
                return;
            owner = found->id;
        }
        ModelRow row { owner, {} };
        std::vector<store::FieldValue> values;
        for (const auto& field : writer.catalogue().columns(entity))
            if (upTo(3) == 0)
                if (const auto known = value(field, state); known.has()) {
                    values.emplace_back(field.key, known);
                    row.values[field.key] = known;
                }
        const auto id = must(writer.add(entity, owner, values));
        state[Ref(entity, id)] = row;
        history_grew_ = true;
    }

    void remove(Writer& writer, State& state, Ref row)
    {
        must(writer.remove(row));
        history_grew_ = true;
        std::erase_if(state, [&](const auto& held) {
            const auto owned = ownerOf(held.first.entity);
            return held.first == row || (owned && owned->entity == row.entity && held.second.owner == row.id);
        });
    }

    void set(Writer& writer, State& state, Ref row)
    {
        const auto& columns = writer.catalogue().columns(row.entity);
        const auto& field = columns[upTo(columns.size())];
        auto& held = state[row];
        const auto known = upTo(5) == 0 ? Known {} : value(field, state);
        const auto before = held.values[field.key];
        must(writer.set(row, field.key, known));
        if (known.has())
            held.values[field.key] = known;
        else
            held.values.erase(field.key);
        if (before.has() || known.has())
            history_grew_ = history_grew_ || !(before == known);
        std::erase_if(held.values, [](const auto& pair) { return !pair.second.has(); });
    }

    /// A value of the field's kind; a name is new each time. A field that another column may turn into an estimate is
    /// always assumed, so that its evidence stands as it was written.
    Known value(const Field& field, const State& state)
    {
        Known known;
        known.evidence = field.estimated_when
            ? Evidence::Assumed
            : std::array { field.nature, Evidence::Estimated, Evidence::Assumed }[upTo(3)];
        switch (field.kind) {
        case Kind::Number:
            known.value = double(upTo(2000)) / 8 - 100;
            break;
        case Kind::YesNo:
            known.value = upTo(2) == 1;
            break;
        case Kind::Time:
            known.value = Instant { 1'777'874'400'000 + qint64(upTo(1'000'000)) * 1000, 7200 };
            break;
        case Kind::Choice:
            known.value = field.choices[upTo(field.choices.size())].key;
            break;
        case Kind::ChoiceSet:
            known.value = joinSet(field, { field.choices[upTo(field.choices.size())].key, field.choices[0].key });
            break;
        case Kind::Text:
            known.value = QStringLiteral("%1 %2").arg(field.key).arg(++names_);
            break;
        case Kind::Link:
            if (const auto target = any(state, field.target))
                known.value = Link { target->id };
            break;
        }
        return known.has() ? known : Known {};
    }

    void check(Window& window)
    {
        must(window.file->refresh(*window.notebook));
        const auto fresh = must(window.file->read());
        ASSERT_EQ(differing(now(), stateOf(fresh)), std::vector<std::string>()) << "model and file";
        ASSERT_EQ(differences(*window.notebook, fresh), QStringList()) << "refreshed and read afresh";
        for (const auto entity : { Entity::Bath, Entity::Weighing })
            for (int row = 0; row < fresh.prints().rows(); ++row)
                ASSERT_THAT(window.notebook->children(entity, fresh.prints().id(row)),
                    testing::ElementsAreArray(fresh.children(entity, fresh.prints().id(row))));
    }

    std::mt19937 random_;
    ScratchNotebook scratch_;
    std::array<Window, 2> windows_;
    std::vector<State> states_ { State {} };
    size_t place_ = 0;
    int names_ = 0;
    bool history_grew_ = false;
};

class RandomEdits : public testing::TestWithParam<unsigned> { };

} // namespace

TEST_P(RandomEdits, FileAndMemoryFollowTheModel)
{
    Play play(GetParam());
    for (int time = 0; time < 250; ++time) {
        play.one();
        if (HasFatalFailure())
            FAIL() << "at move " << time;
    }
    play.checkAll();
}

INSTANTIATE_TEST_SUITE_P(Seeds, RandomEdits, testing::Range(1U, 9U));

} // namespace WASHFAST_FILE
