// The line to the desk: what it tells comes in, what is wanted goes out; when it breaks, it is taken up again.
export const line = (hear, standing) => {
  const address = `ws://${location.host}${location.pathname}live`;
  const waiting = [];
  let socket;
  const open = () => {
    socket = new WebSocket(address);
    socket.onopen = () => {
      for (const wish of waiting.splice(0)) socket.send(JSON.stringify(wish));
      standing("there");
    };
    socket.onmessage = message => hear(JSON.parse(message.data));
    socket.onclose = async () => {
      const answer = await fetch(location.href).catch(() => null);
      standing(answer?.status === 403 ? "elsewhere" : "silent");  // a desk that was started anew has a new address
      setTimeout(open, 500);
    };
  };
  open();
  return {
    waiting,
    send: wish => {
      if (socket.readyState === WebSocket.OPEN) socket.send(JSON.stringify(wish));
      else waiting.push(wish);
    },
  };
};
