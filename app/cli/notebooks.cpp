#include "app/cli/notebooks.h"
#include "app/cli/whole_catalogue.h"
#include "app/cli/words.h"
#include "core/files/read_once.h"

#include <QFileInfo>

namespace washfast::cli {

Outcome OpenedNotebook::readRecords()
{
    auto read = file->read();
    if (!read)
        return read.error();
    records = std::make_unique<Notebook>(std::move(read).value());
    return Done {};
}

Error notOnDisk(const QString& path)
{
    return { Trouble::BadInput, Words::tr("A notebook has to be a file on a disk, not a pipe or a device."),
        files::spokenName(path) };
}

Result<OpenedNotebook> openNotebook(const QString& path, Open how)
{
    const QFileInfo info(path);
    if (files::isStandardStream(path) || (info.exists() && !info.isFile() && !info.isDir()))
        return notOnDisk(path);
    if (how == Open::MayBeNew && !info.exists())
        if (const auto wrong = files::whyNotWrite(path, files::Existing::Refuse))
            return *wrong;
    OpenedNotebook opened;
    opened.catalogue = std::make_unique<Catalogue>(wholeCatalogue());
    store::OpenOptions options;
    options.create = how == Open::MayBeNew;
    auto file = store::NotebookFile::open(path, *opened.catalogue, options);
    if (!file && file.error().code == Trouble::NoSpace)
        return Error { Trouble::NoSpace, Words::tr("The disk is full, so the notebook could not be opened."), path };
    if (!file)
        return file.error();
    opened.file = std::move(file).value();
    return opened;
}

Outcome makeNotebook(const QString& path, files::Existing existing, const std::function<Outcome(OpenedNotebook&)>& work)
{
    if (const auto wrong = files::whyNotWrite(path, existing))
        return *wrong;
    const auto aside = files::Aside::beside(path);
    if (!aside)
        return aside.error();
    const QString name = QFileInfo(path).fileName();
    const auto make = [&]() -> Outcome {
        auto notebook = openNotebook((*aside)->path(name), Open::MayBeNew);
        if (!notebook)
            return notebook.error();
        return work(*notebook);
    };
    if (const auto made = make(); !made)
        return Error { made.error().code,
            made.error().code == Trouble::NoSpace ? Words::tr("The disk is full, so the notebook was not made.")
                                                  : made.error().says,
            path };
    return (*aside)->moveInto(name, path, existing);
}

Result<std::vector<char>> printsShown(const PrintColumns& columns, const QString& filter)
{
    const auto parsed = parseFilter(filter, columns.notebook().catalogue());
    if (!parsed.ok())
        return parsed.fault->error();
    return parsed.filter.matches(columns);
}

} // namespace washfast::cli
