// The records that imported prints point at (sessions, mixes, papers, covers ...): those of the notebook, and those
// that the table makes. Each column of such a record may be given by several rows of the table; they have to agree.
#pragma once

#include "core/trial/notebook.h"

#include <deque>
#include <map>

namespace washfast::exchange {

struct LinkedRecord {
    struct Held {
        Known value; // of a link: unknown; see `link`
        int link = -1; // index of the record that a link points at
        qsizetype line = 0; // of the table's row that gave it; 0: the notebook
        bool day_only = false; // a time that stands for its whole day
    };
    Entity entity = Entity::Session;
    QString name;
    qint64 id = 0; // 0: made by the import
    bool used = false; // by a row that is imported
    std::vector<Held> held; // one for each column
};

/// What a row says about one column of a linked record.
struct Wish {
    int record = -1;
    int column = -1; // ordinal
    Known value;
    int link = -1; // for link columns
    bool day_only = false;
    int field = -1; // print field that the row says it with
};

class LinkedRecords {
public:
    explicit LinkedRecords(const Notebook& notebook)
        : notebook_(&notebook)
    {
    }

    /// The record with this name; a new one when the notebook has none.
    [[nodiscard]] int named(Entity entity, const QString& name);
    /// The record that a link column of a record points at, or -1.
    [[nodiscard]] int behind(int record, int column) const { return at(record).held[size_t(column)].link; }
    [[nodiscard]] const LinkedRecord& at(int record) const { return records_[size_t(record)]; }
    [[nodiscard]] int count() const { return int(records_.size()); }

    /// A sentence when the record holds something else already; nothing when it agrees or holds nothing yet.
    [[nodiscard]] std::optional<QString> disagreement(const Wish& wish) const;
    /// Lets the record hold what a row says. Only after disagreement() found nothing.
    void grant(const Wish& wish, qsizetype line);
    void use(int record);

private:
    [[nodiscard]] int load(Entity entity, qint64 id);

    const Notebook* notebook_;
    std::deque<LinkedRecord> records_;
    std::map<std::pair<Entity, QString>, int> by_name_;
    std::map<std::pair<Entity, qint64>, int> by_id_;
    std::array<std::optional<QHash<QString, qint64>>, entityCount> ids_; // by folded name, of the notebook
};

} // namespace washfast::exchange
