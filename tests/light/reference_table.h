// A plain table of reference data: rows of cells by heading.
#pragma once

#include <algorithm>
#include <fstream>
#include <gtest/gtest.h>
#include <sstream>
#include <string>
#include <vector>

namespace washfast::test {

class ReferenceTable {
public:
    /// `name` below the folder of reference data; lines that begin with # are remarks.
    explicit ReferenceTable(const std::string& name)
    {
        std::ifstream file(std::string(WASHFAST_REFERENCE "/") + name);
        EXPECT_TRUE(file.is_open()) << name;
        for (std::string line; std::getline(file, line);) {
            if (!line.empty() && line.back() == '\r')
                line.pop_back();
            if (line.empty() || line.front() == '#')
                continue;
            std::vector<std::string> row;
            std::istringstream cells(line);
            for (std::string cell; std::getline(cells, cell, ',');)
                row.push_back(cell);
            if (headings_.empty())
                headings_ = row;
            else
                rows_.push_back(row);
        }
        EXPECT_FALSE(rows_.empty()) << name;
    }
    [[nodiscard]] size_t size() const { return rows_.size(); }
    [[nodiscard]] std::string text(size_t row, const std::string& heading) const
    {
        const auto at = std::find(headings_.begin(), headings_.end(), heading);
        EXPECT_NE(at, headings_.end()) << heading;
        const auto column = static_cast<size_t>(at - headings_.begin());
        return column < rows_[row].size() ? rows_[row][column] : std::string();
    }
    [[nodiscard]] double number(size_t row, const std::string& heading) const { return std::stod(text(row, heading)); }
    /// The number in the row whose first cell is this.
    [[nodiscard]] double number(const std::string& first, const std::string& heading) const
    {
        for (size_t i = 0; i < rows_.size(); ++i)
            if (rows_[i][0] == first)
                return number(i, heading);
        ADD_FAILURE() << "no row " << first;
        return 0;
    }

private:
    std::vector<std::string> headings_;
    std::vector<std::vector<std::string>> rows_;
};

} // namespace washfast::test
