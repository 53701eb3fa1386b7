package org.groovemend.report;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.Base64;

/**
 * The script of a {@link CollectionPage}: sorts tables and copies command lines. Without it the
 * page shows the same in the order in which it was written. Holds neither of the characters that
 * would have to be escaped, so that the page stays well-formed XML.
 */
final class CollectionScript {

  static final String TEXT =
      """
      (function () {
        'use strict';
        var status = document.getElementById('status');
        function key(row, column) {
          var cell = row.cells[column];
          var number = cell.getAttribute('data-v');
          return number === null ? cell.textContent : number === '' ? null : Number(number);
        }
        function compare(a, b) {
          if (typeof a === 'string') { return a.localeCompare(b, 'en', {numeric: true}); }
          return a - b;
        }
        function sort(table, column, down) {
          var body = table.tBodies[0];
          var rows = Array.from(body.rows).map(function (row, i) {
            return {row: row, key: key(row, column), i: i};
          });
          rows.sort(function (a, b) {
            if (a.key === null) { return b.key === null ? a.i - b.i : 1; }
            if (b.key === null) { return -1; }
            var c = compare(a.key, b.key);
            return c === 0 ? a.i - b.i : down ? -c : c;
          });
          rows.forEach(function (r) { body.appendChild(r.row); });
        }
        document.querySelectorAll('table.sides').forEach(function (table) {
          Array.from(table.tHead.rows[0].cells).forEach(function (head, column) {
            var button = document.createElement('button');
            button.type = 'button';
            button.textContent = head.textContent;
            head.textContent = '';
            head.appendChild(button);
            button.addEventListener('click', function () {
              var first = table.tBodies[0].rows[0];
              var numbers = first ? first.cells[column].hasAttribute('data-v') : false;
              var was = head.getAttribute('aria-sort');
              var down = was === null ? numbers : was === 'ascending';
              Array.from(table.tHead.rows[0].cells).forEach(function (other) {
                other.removeAttribute('aria-sort');
              });
              head.setAttribute('aria-sort', down ? 'descending' : 'ascending');
              sort(table, column, down);
              status.textContent = table.caption.textContent + ': sorted by '
                + button.textContent + ', ' + (down ? 'from high to low.' : 'from low to high.');
            });
          });
        });
        document.querySelectorAll('code.line').forEach(function (code) {
          var button = document.createElement('button');
          button.type = 'button';
          button.className = 'copy';
          button.textContent = 'copy';
          button.setAttribute('aria-label', 'copy ' + code.textContent);
          code.after(button);
          button.addEventListener('click', function () {
            getSelection().selectAllChildren(code);
            var done = false;
            try { done = document.execCommand('copy'); } catch (e) { done = false; }
            button.textContent = done ? 'copied' : 'selected';
            setTimeout(function () { button.textContent = 'copy'; }, 2000);
            status.textContent = done ? 'Copied: ' + code.textContent
              : 'Selected; copy it with the keys of your system.';
          });
        });
        document.documentElement.setAttribute('data-ready', 'yes');
      })();
      """;

  private CollectionScript() {}

  /** What the policy of the page allows, and nothing else (Content Security Policy, level 2). */
  static String source() {
    try {
      byte[] digest =
          MessageDigest.getInstance("SHA-256").digest(TEXT.getBytes(StandardCharsets.UTF_8));
      return "'sha256-" + Base64.getEncoder().encodeToString(digest) + "'";
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java platform has SHA-256", e);
    }
  }
}
