// Plain old syntax on purpose: a Node that is too old has to be able to read this file to say so.
var oldest = [20, 19]
var running = process.versions.node.split('.').map(Number)
if (running[0] < oldest[0] || (running[0] === oldest[0] && running[1] < oldest[1])) {
  console.error(`Node.js ${oldest.join('.')} or newer is needed; this is ${process.versions.node}.`)
  process.exit(1)
}
