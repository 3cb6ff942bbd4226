// Prints `N passed, N failed` from the JSON report of the test run (first argument) and the exit code of `npm test`
// (second). Without a report the tests never ran: then nothing has passed, whatever was counted elsewhere.
import { readFileSync } from 'node:fs';

function count(file, status) {
  let report;
  try {
    report = JSON.parse(readFileSync(file, 'utf8'));
  } catch {
    return { passed: 0, failed: 1 };
  }
  // A file that cannot be loaded fails without a failed test in it.
  const broken = report.testResults.filter(
    (result) =>
      result.status === 'failed' && !result.assertionResults.some((test) => test.status === 'failed'),
  );
  const failed = report.numFailedTests + broken.length;
  return { passed: report.numPassedTests, failed: failed === 0 && status !== 0 ? 1 : failed };
}

const [file, status] = process.argv.slice(2);
const { passed, failed } = count(file, Number(status));
console.log(`${passed} passed, ${passed === 0 ? Math.max(failed, 1) : failed} failed`);
