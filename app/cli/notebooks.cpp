#include "app/cli/notebooks.h"
#include "app/cli/whole_catalogue.h"

namespace washfast::cli {

Outcome OpenedNotebook::readRecords()
{
    auto read = file->read();
    if (!read)
        return read.error();
    records = std::make_unique<Notebook>(std::move(read).value());
    return Done {};
}

Result<OpenedNotebook> openNotebook(const QString& path, Open how)
{
    OpenedNotebook opened;
    opened.catalogue = std::make_unique<Catalogue>(wholeCatalogue());
    store::OpenOptions options;
    options.create = how == Open::MayBeNew;
    auto file = store::NotebookFile::open(path, *opened.catalogue, options);
    if (!file)
        return file.error();
    opened.file = std::move(file).value();
    return opened;
}

Result<std::vector<char>> printsShown(const PrintColumns& columns, const QString& filter)
{
    const auto parsed = parseFilter(filter, columns.notebook().catalogue());
    if (!parsed.ok())
        return parsed.fault->error();
    return parsed.filter.matches(columns);
}

} // namespace washfast::cli
