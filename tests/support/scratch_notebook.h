// A notebook file in a folder of its own that goes away with the test.
//
//     ScratchNotebook scratch;
//     auto file = scratch.open();
//     const auto print = addPrint(*file, "P1");
//     must(file->undo());
//
// must() gives what a result holds; an error becomes the failure of the test.
#pragma once

#include "core/store/notebook_file.h"
#include "tests/support/text.h"
#include "tests/support/whole_print.h"

#include <QDir>
#include <QFile>
#include <QTemporaryDir>
#include <gtest/gtest.h>
#include <stdexcept>

namespace washfast {

inline void PrintTo(Trouble trouble, std::ostream* out)
{
    constexpr std::array names { "BadInput", "NotFound", "NotANotebook", "TooNew", "ReadOnly", "NoSpace", "Busy",
        "Conflict", "Damaged", "Lost", "Failed" };
    *out << names.at(size_t(trouble));
}
inline void PrintTo(const Ref& ref, std::ostream* out)
{
    *out << entityKey(ref.entity).toStdString() << ' ' << ref.id;
}

} // namespace washfast

namespace washfast::test {

template <typename T> T must(Result<T> result)
{
    if (!result)
        throw std::runtime_error(result.error().sentence().toStdString());
    return std::move(result).value();
}

/// The error that a result must hold.
template <typename T> Error fails(const Result<T>& result)
{
    if (result.ok())
        throw std::runtime_error("this should have failed");
    if (result.error().says.isEmpty())
        throw std::runtime_error("an error without a sentence");
    return result.error();
}

inline QByteArray bytesOf(const QString& path)
{
    QFile file(path);
    if (!file.open(QIODevice::ReadOnly))
        throw std::runtime_error("cannot read " + path.toStdString());
    return file.readAll();
}

inline void putBytes(const QString& path, const QByteArray& bytes)
{
    QFile file(path);
    if (!file.open(QIODevice::WriteOnly) || file.write(bytes) != bytes.size())
        throw std::runtime_error("cannot write " + path.toStdString());
}

class ScratchNotebook {
public:
    explicit ScratchNotebook(Catalogue catalogue = standardCatalogue(), const QString& in = QDir::tempPath())
        : folder_(QDir(in).filePath(QStringLiteral("washfast-test-XXXXXX")))
        , catalogue_(std::move(catalogue))
    {
        if (!folder_.isValid())
            throw std::runtime_error("no folder for the test");
    }

    [[nodiscard]] QString path() const { return inFolder("term.washfast"); }
    [[nodiscard]] QString inFolder(const char* name) const { return folder_.filePath(QString::fromUtf8(name)); }
    [[nodiscard]] QStringList names() const
    {
        return QDir(folder_.path()).entryList(QDir::AllEntries | QDir::NoDotAndDotDot, QDir::Name);
    }
    [[nodiscard]] const Catalogue& catalogue() const { return catalogue_; }

    [[nodiscard]] std::unique_ptr<store::NotebookFile> open(const store::OpenOptions& options = {}) const
    {
        return must(tryOpen(options));
    }
    [[nodiscard]] Result<std::unique_ptr<store::NotebookFile>> tryOpen(const store::OpenOptions& options = {}) const
    {
        return store::NotebookFile::open(path(), catalogue_, options);
    }

private:
    QTemporaryDir folder_;
    Catalogue catalogue_;
};

/// One step that adds a print with this code and nothing else.
inline PrintId addPrint(store::NotebookFile& file, const char* code)
{
    qint64 id = 0;
    must(file.perform(QStringLiteral("Add %1").arg(text(code)), [&](store::Writer& writer) -> Outcome {
        const auto added = writer.add(Entity::Print, 0, { { QStringLiteral("print_code"), Known { text(code) } } });
        if (!added)
            return added.error();
        id = *added;
        return Done {};
    }));
    return { id };
}

/// One step that adds a print with all its children.
inline PrintId addWholePrint(store::NotebookFile& file, const char* code, int n = 0, const Shared& shared = {})
{
    qint64 id = 0;
    must(file.perform(QStringLiteral("Log %1").arg(text(code)), [&](store::Writer& writer) -> Outcome {
        const auto added = addRows(writer, wholePrint(text(code), n, shared));
        if (!added)
            return added.error();
        id = *added;
        return Done {};
    }));
    return { id };
}

/// One step that sets one field.
inline Outcome setField(store::NotebookFile& file, Ref row, const char* column, const Known& value,
    const std::optional<Known>& expected = std::nullopt)
{
    const auto step = file.perform(QStringLiteral("Set %1").arg(text(column)),
        [&](store::Writer& writer) { return writer.set(row, text(column), value, expected); });
    if (!step)
        return step.error();
    return Done {};
}

/// A field as the file holds it now.
inline Known fieldOf(store::NotebookFile& file, Ref row, const char* column)
{
    return must(file.read()).get(row, text(column));
}

/// What is different between two notebooks in memory, a line each; both must have the same catalogue.
inline QStringList differences(const Notebook& a, const Notebook& b)
{
    QStringList lines;
    for (const auto entity : allEntities()) {
        const auto& left = a.table(entity);
        const auto& right = b.table(entity);
        if (left.rows() != right.rows()) {
            lines << QStringLiteral("%1: %2 rows, %3 rows").arg(entityKey(entity)).arg(left.rows()).arg(right.rows());
            continue;
        }
        for (int row = 0; row < left.rows(); ++row) {
            const auto where = QStringLiteral("%1 %2").arg(entityKey(entity)).arg(left.id(row));
            if (left.id(row) != right.id(row) || left.owner(row) != right.owner(row))
                lines << where + QStringLiteral(": another id or owner");
            for (const auto& field : a.catalogue().columns(entity))
                if (left.at(row, field.ordinal) != right.at(row, field.ordinal))
                    lines << where + QLatin1Char(' ') + field.key;
        }
    }
    return lines;
}

} // namespace washfast::test
