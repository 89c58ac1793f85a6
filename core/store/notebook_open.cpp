// What is seen to before a notebook's file is written to: that it is sound, that its tables are tables, that it is not
// upgraded when it is only read.
#include "core/store/copies.h"
#include "core/store/notebook_file.h"
#include "core/store/rows.h"
#include "core/store/soundness.h"
#include "core/store/words.h"

namespace washfast::store {

namespace {

/// One of our tables that is something else in this file; nothing when all are tables. Reading a view runs what
/// somebody else has written, perhaps for ever.
Result<QString> tableThatIsNone(Connection& connection)
{
    QStringList names { QStringLiteral("step"), QStringLiteral("history"), QStringLiteral("setting"),
        QStringLiteral("photo_data") };
    for (const auto entity : allEntities())
        names << entityKey(entity);
    const auto others = texts(connection.prepare(
        "SELECT lower(name) FROM sqlite_schema WHERE type = 'view' OR (type = 'table' AND rootpage = 0)"));
    if (!others)
        return others.error();
    for (const auto& name : *others)
        if (names.contains(name))
            return name;
    return QString();
}

} // namespace

Error NotebookFile::told(const Error& error) const
{
    if (error.code != Trouble::Damaged)
        return error;
    auto whole = error;
    whole.says += QLatin1Char(' ') + (name_copy_ ? wayOut(path_) : whereCopiesAre(path_));
    return whole;
}

Outcome NotebookFile::unchanged() const
{
    if (at_rest_ && *at_rest_ != stampOf(path_))
        return Error { Trouble::Busy, Words::tr("Another program changed the notebook while it was read. Try again."),
            path_ };
    return Done {};
}

void NotebookFile::foundDamaged(const Error& how)
{
    damage_ = how;
    access_ = Access::ReadOnlyDamaged;
}

Look NotebookFile::lookFirst(Connection& connection, const OpenOptions& options) const
{
    const auto none = tableThatIsNone(connection);
    if (none && !none->isEmpty())
        return { true, Words::tr("its table %1 is a view or the table of an extension").arg(*none) };
    const int newest = options.migrations.empty() ? 0 : options.migrations.back().to;
    const auto version = connection.integer("PRAGMA user_version");
    const bool grows = writable() && version && *version < newest;
    if (options.look == LookFirst::Whole || grows)
        return wholeLook(connection, options.stop);
    return options.look == LookFirst::None ? Look {} : quickLook(connection, options.quick_look_ms);
}

Outcome NotebookFile::connect(const OpenOptions& options, bool fresh)
{
    // What is there already is looked at through a connection that cannot write.
    for (int time = 0; !fresh; ++time) {
        auto reading = openToRead(path_);
        if (!reading)
            return reading.error();
        const auto look = lookFirst(*reading->connection, options);
        if (look.damaged() && !reading->stillTheSame() && time < 3)
            continue; // somebody was writing just now
        if (look.damaged())
            foundDamaged(damaged(look.fault, path_));
        if (writable())
            break;
        connection_ = std::move(reading->connection);
        at_rest_ = reading->at_rest;
        const auto done = prepare(options, false);
        return !done && damage_ ? Outcome(*damage_) : done;
    }
    auto connection = Connection::open(path_, Connection::Mode::ReadWrite);
    if (!connection)
        return connection.error();
    connection_ = std::move(connection).value();
    return prepare(options, fresh);
}

Outcome NotebookFile::readUpgraded(const OpenOptions& options)
{
    auto copy = upgradedCopy(*connection_, options.migrations, scratch_);
    if (!copy)
        return copy.error();
    if (auto same = unchanged(); !same)
        return same;
    at_rest_.reset(); // the copy does not change
    connection_ = std::move(copy).value();
    return readSchema();
}

} // namespace washfast::store
