// SPDX-License-Identifier: MIT
#include "report/coach_page.hpp"

namespace rangecheck::report {

// Without it the page says all the same, in the order in which it was written.
std::string_view coach_script() {
  return R"js(
for (const table of document.querySelectorAll('table.sorted')) {
  const rows = [...table.tBodies[0].rows];
  for (const button of table.querySelectorAll('thead button')) {
    const head = button.parentElement;
    button.disabled = false;
    button.addEventListener('click', () => {
      const up = head.getAttribute('aria-sort') !== 'ascending';
      for (const other of table.querySelectorAll('thead th')) other.removeAttribute('aria-sort');
      head.setAttribute('aria-sort', up ? 'ascending' : 'descending');
      const key = row => row.cells[head.cellIndex].dataset.key;
      const number = rows.every(row => key(row) === '' || !isNaN(key(row)));
      const compared = (a, b) => number ? key(a) - key(b) : key(a).localeCompare(key(b));
      // What has no value comes last, whichever way.
      const missing = (a, b) => (key(a) === '') - (key(b) === '');
      rows.sort((a, b) => missing(a, b) || (up ? compared(a, b) : compared(b, a)));
      table.tBodies[0].append(...rows);
    });
  }
}
const filter = document.querySelector('#filter');
if (filter) {
  const shown = document.querySelector('#shown');
  filter.closest('p').hidden = false;
  const rows = [...document.querySelectorAll('#roster tbody tr')];
  filter.addEventListener('input', () => {
    const words = filter.value.toLowerCase().split(/\s+/);
    for (const row of rows)
      row.hidden = !words.every(word => row.textContent.toLowerCase().includes(word));
    shown.textContent = rows.filter(row => !row.hidden).length + ' / ' + rows.length;
  });
}
)js";
}

}  // namespace rangecheck::report
