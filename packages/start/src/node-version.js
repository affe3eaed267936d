/**
 * What is wrong with this version of Node, as a sentence; undefined when it fits package.json's engines (>=20.20 <21).
 * @param {string} version "20.20.2"
 */
export function nodeVersionProblem(version) {
  const [major = 0, minor = 0] = version.split('.').map(Number)
  if (major === 20 && minor >= 20) return undefined
  return `Curebook runs on Node 20.20 or a later 20; this is Node ${version}. Install Node 20 and start again.`
}
