// A desk on a notebook of its own in a scratch folder, with a clock that a test sets and dialogs that it answers.
//
//     DeskFixture room;
//     const auto session = room.add(Entity::Session, { { "session_code", "A1" } });
//     room.sit(session);
//     const auto print = room.print("A1-01");
//     SomeView view(room.services());
//     ...
//     room.reopen();                                  // what stands in the file, read anew
//     EXPECT_EQ(room.number(print, "coat_volume_ml"), 0.62);
//
// Views that are built on the desk must be gone before reopen(). What is trouble to the desk fails the test, unless
// the test takes it: room.expectTrouble().
#pragma once

#include "app/cli/whole_catalogue.h"
#include "tests/support/scripted_dialogs.h"
#include "tests/support/settable_clock.h"
#include "tests/support/small_notebook.h"
#include "ui/common/view.h"

#include <QFile>
#include <QTemporaryDir>

namespace washfast::test {

class DeskFixture {
public:
    DeskFixture() { open(); }
    // With another catalogue, and the migrations that it needs.
    DeskFixture(Catalogue catalogue, const store::OpenOptions& options)
        : catalogue_(std::move(catalogue))
    {
        open(options);
    }

    [[nodiscard]] ui::Services services() { return { *desk_, dialogs, look }; }
    [[nodiscard]] ui::Desk& desk() { return *desk_; }
    [[nodiscard]] const Catalogue& catalogue() const { return catalogue_; }
    [[nodiscard]] QString path() const { return folder_.filePath(QStringLiteral("notebook.washfast")); }

    // Reads the file anew, as the next start of the program does; with `readOnly` as one that may not be written.
    void reopen(bool readOnly = false)
    {
        const auto session = desk_->session();
        desk_.reset();
        store::OpenOptions options;
        if (readOnly) // a file of a newer version opens for reading only
            options.migrations.clear();
        open(options);
        desk_->setSession(session);
    }

    // Rows made beforehand; they cannot be undone.
    qint64 add(Entity entity, Cells cells, qint64 owner = 0)
    {
        std::vector<store::FieldValue> values;
        for (const auto& cell : cells) {
            const int ordinal = catalogue_.column(entity, QString::fromUtf8(cell.key));
            EXPECT_GE(ordinal, 0) << entityKey(entity).toStdString() << " has no column " << cell.key;
            if (ordinal >= 0)
                values.emplace_back(
                    QString::fromUtf8(cell.key), cell.given.forField(catalogue_.columns(entity)[size_t(ordinal)]));
        }
        qint64 id = 0;
        const auto done = desk_->file().performOrigin(QStringLiteral("given"), [&](store::Writer& writer) -> Outcome {
            const auto added = writer.add(entity, owner, values);
            if (!added)
                return added.error();
            id = *added;
            return Done {};
        });
        EXPECT_TRUE(done) << done.error().sentence().toStdString();
        // The desk takes in what its own file object wrote together with the next step; this one asks for it at once.
        EXPECT_TRUE(desk_->perform({}, [](store::Writer&) -> Outcome { return Done {}; }));
        return id;
    }
    // A print of the session that the desk sits at.
    qint64 print(const char* code, Cells cells = {})
    {
        const qint64 id = add(Entity::Print, cells);
        set({ Entity::Print, id }, "print_code", code);
        if (desk_->session().valid())
            set({ Entity::Print, id }, "print_session", desk_->session().value);
        return id;
    }
    void set(Ref row, const char* key, const Given& given)
    {
        const auto& field = catalogue_.columnField(row.entity, QString::fromUtf8(key));
        const auto done = desk_->file().performOrigin(QStringLiteral("given"),
            [&](store::Writer& writer) { return writer.set(row, field.key, given.forField(field)); });
        EXPECT_TRUE(done) << done.error().sentence().toStdString();
        EXPECT_TRUE(desk_->perform({}, [](store::Writer&) -> Outcome { return Done {}; }));
    }
    void sit(qint64 session) { desk_->setSession(SessionId { session }); }

    [[nodiscard]] Known get(qint64 print, const char* key) const
    {
        EXPECT_GE(catalogue_.printField(QString::fromUtf8(key)), 0) << "no print field " << key;
        return desk_->get(print, QString::fromUtf8(key));
    }
    [[nodiscard]] std::optional<double> number(qint64 print, const char* key) const { return get(print, key).number(); }
    [[nodiscard]] std::optional<Instant> time(qint64 print, const char* key) const { return get(print, key).time(); }
    [[nodiscard]] std::optional<std::string> text(qint64 print, const char* key) const
    {
        const auto text = get(print, key).text();
        return text ? std::optional(text->toStdString()) : std::nullopt;
    }
    [[nodiscard]] int childrenOf(qint64 print, Entity child) const
    {
        return int(desk_->notebook().children(child, print).size());
    }

    // Errors from now on are kept for the test to read instead of failing it.
    void expectTrouble() { trouble_expected_ = true; }
    [[nodiscard]] const QStringList& troubles() const { return troubles_; }

    SettableClock clock;
    ScriptedDialogs dialogs;
    ui::ThemeSource look { false };

private:
    void open(const store::OpenOptions& options = {})
    {
        auto file = store::NotebookFile::open(path(), catalogue_, options);
        ASSERT_TRUE(file) << file.error().sentence().toStdString();
        desk_ = std::make_unique<ui::Desk>(std::move(*file), clock);
        QObject::connect(desk_.get(), &ui::Desk::trouble, desk_.get(), [this](const Error& error) {
            troubles_ << error.sentence();
            EXPECT_TRUE(trouble_expected_) << error.sentence().toStdString();
        });
    }

    QTemporaryDir folder_;
    Catalogue catalogue_ = wholeCatalogue();
    bool trouble_expected_ = false;
    QStringList troubles_;
    std::unique_ptr<ui::Desk> desk_;
};

} // namespace washfast::test
