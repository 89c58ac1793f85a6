#include "app/demo/demo_notebook.h"

#include "app/demo/forward_model.h"
#include "app/demo/print_notes.h"
#include "app/demo/words.h"

namespace washfast::demo {

namespace {

// Streams of chance of a sheet's own; those of the lessons are in lessons.cpp.
constexpr quint32 natureStream = 1000;
constexpr quint32 pencilStream = 2000;

Outcome writeSheets(store::Writer& writer, const Scenario& scenario, const Shelf& shelf, int lesson, quint32 seed)
{
    Pen pen(writer);
    const auto session = writeLesson(pen, shelf, scenario.sessions[size_t(lesson)]);
    for (const auto& sheet : scenario.sheets) {
        if (sheet.session != lesson)
            continue;
        const auto item = quint32(sheet.number);
        Chance nature(seed, natureStream + quint32(lesson), item);
        Chance pencil(seed, pencilStream + quint32(lesson), item);
        const auto truth = befall(scenario, sheet, nature);
        writePrint(pen, scenario, shelf, session, sheet, truth, pencil);
    }
    return pen.outcome();
}

} // namespace

Outcome writeDemo(store::NotebookFile& file, quint32 seed)
{
    const auto before = file.read();
    if (!before)
        return before.error();
    for (const auto entity : allEntities())
        if (before->table(entity).rows() > 0)
            return Error { Trouble::BadInput,
                Words::tr("The example needs an empty notebook, and there are records in this one."), file.path() };

    const auto scenario = makeScenario(seed);
    Shelf shelf;
    const auto shelf_step = file.performOrigin(Words::tr("Example: the shelf"), [&](store::Writer& writer) {
        Pen pen(writer);
        shelf = writeShelf(pen, scenario);
        return pen.outcome();
    });
    if (!shelf_step)
        return shelf_step.error();
    for (int lesson = 0; lesson < int(scenario.sessions.size()); ++lesson) {
        const auto step
            = file.performOrigin(Words::tr("Example: lesson %1").arg(scenario.sessions[size_t(lesson)].code),
                [&](store::Writer& writer) { return writeSheets(writer, scenario, shelf, lesson, seed); });
        if (!step)
            return step.error();
    }
    return Done {};
}

} // namespace washfast::demo
