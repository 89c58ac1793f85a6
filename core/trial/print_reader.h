// Reads any field of the catalogue, recorded or derived, from a print of a notebook.
#pragma once

#include "core/trial/notebook.h"

namespace washfast {

class PrintReader {
public:
    /// Keeps references to both: they must live longer.
    explicit PrintReader(const Notebook& notebook);

    /// Field by its index in Catalogue::printFields(), print by its row in the notebook's table.
    [[nodiscard]] Known get(int print_row, int field) const;
    [[nodiscard]] Known get(int print_row, QStringView key) const; // unknown for a key that is not there
    /// The rows of child tables, as a derivation gets them.
    [[nodiscard]] std::vector<ChildRows> rows(int print_row, const std::vector<RowsOf>& asked) const;
    [[nodiscard]] const Notebook& notebook() const { return *notebook_; }
    /// The row that a recorded field is read from, if there is one: the print itself, a child, or a linked record.
    [[nodiscard]] std::optional<Ref> rowBehind(int print_row, int field) const;

private:
    struct Step { // a link to follow
        int column;
        Entity target;
    };
    struct Match {
        int column;
        bool is_choice;
        double number; // for numbers, the value; for choices, the position
    };
    struct RowColumn {
        std::vector<Step> links;
        Entity entity;
        int column;
    };
    struct RowsPlan {
        Entity entity;
        std::vector<Step> owner;
        std::vector<RowColumn> columns;
    };
    struct Plan {
        std::vector<Step> via, after;
        std::optional<Entity> child;
        std::vector<Match> match;
        Entity entity = Entity::Print; // of the last row
        int column = -1;
        const Source* source = nullptr; // when it says which of several rows counts
        std::vector<int> inputs; // derived
        std::vector<RowsPlan> rows;
        const Derivation* derivation = nullptr;
    };
    [[nodiscard]] Plan planFor(const Field& field) const;
    [[nodiscard]] RowsPlan planFor(const RowsOf& rows) const;
    void addSteps(const QStringList& links, std::vector<Step>& steps, Entity& entity) const;
    [[nodiscard]] bool follow(const std::vector<Step>& steps, Entity& entity, int& row) const;
    [[nodiscard]] bool locate(const Plan& plan, int print_row, Entity& entity, int& row) const;
    [[nodiscard]] bool countsBefore(const Plan& plan, int row, int other) const;
    [[nodiscard]] ChildRows rowsOf(const RowsPlan& plan, int print_row) const;
    [[nodiscard]] Known work(const Plan& plan, int print_row) const;

    const Notebook* notebook_;
    std::vector<Plan> plans_;
};

} // namespace washfast
