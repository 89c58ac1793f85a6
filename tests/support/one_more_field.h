// The catalogue and the schema with one more thing to record: the curl of the sheet, a number with a unit. It is added
// the way that any field is, by one entry in the catalogue and one column in a migration; every room that draws on the
// catalogue is tested to show and take it without knowing it.
//
//     const auto grown = catalogueWithCurl();
//     auto file = NotebookFile::open(path, grown.catalogue, grown.options());
#pragma once

#include "core/store/notebook_file.h"

namespace washfast::test {

struct GrownCatalogue {
    Catalogue catalogue;
    std::vector<store::Migration> migrations;

    [[nodiscard]] store::OpenOptions options() const
    {
        store::OpenOptions options;
        options.migrations = migrations;
        return options;
    }
};

inline QString curlKey()
{
    return QStringLiteral("dry_curl_mm");
}

inline GrownCatalogue catalogueWithCurl()
{
    GrownCatalogue grown { standardCatalogue(), store::shippedMigrations() };
    grown.catalogue.add(
        numberField(Entity::Print, "dry_curl_mm", "Curl of the sheet", "mm", "How far the edge stands off the table.")
            .in(Station::Dry)
            .range(0, 80)
            .digits(1)
            .cause());
    grown.migrations.push_back({ grown.migrations.back().to + 1, "ALTER TABLE print ADD COLUMN dry_curl_mm REAL;" });
    return grown;
}

} // namespace washfast::test
